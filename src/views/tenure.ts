import type { Field } from "../records/model.ts";

/** "rented from a neighbor", "managed for the school" */
export const heldWords = ({ kind, from }: NonNullable<Field["tenure"]>): string =>
  from === undefined ? kind : `${kind} ${kind === "managed" ? "for" : "from"} ${from}`;
