import type { SamplingEvent } from "./finding.ts";

const months = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

/** "October 2023" */
export const eventMonth = ({ date }: Pick<SamplingEvent, "date">): string => `${months[Number(date.slice(5, 7)) - 1]!} ${date.slice(0, 4)}`;
