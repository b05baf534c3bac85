import * as z from "zod";
import { shortBase } from "../rules/baseShare.ts";
import type { CheckKind } from "./check.ts";
import { published, same } from "./check.ts";

const percent = z.number().min(0).max(100).optional();
const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ Ca: percent, Mg: percent, K: percent, Na: percent }).describe("percent of the exchangeable bases"),
  expect: z.strictObject({ short: z.boolean() }),
});

export const baseShareCheck: CheckKind<z.infer<typeof shape>> = {
  file: "baseShare",
  list: "cases",
  title: "One base as a share of all",
  shape,
  run: (c, shelf) => [same("short", String(shortBase(shelf.rule(c.rule, "baseShare"), c.input) !== undefined), String(c.expect.short))],
};
