import { monthNames } from "../../days.ts";
import type { SamplingEvent } from "./finding.ts";

/** "October 2023" */
export const eventMonth = ({ date }: Pick<SamplingEvent, "date">): string =>
  `${monthNames[Number(date.slice(5, 7)) - 1]!} ${date.slice(0, 4)}`;
