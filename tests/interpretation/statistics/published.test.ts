import { describe } from "vitest";
import { coresNeededCheck, precisionCheck } from "../../../src/interpretation/checks/coresNeededCheck.ts";
import { detectableSlopeCheck } from "../../../src/interpretation/checks/detectableSlopeCheck.ts";
import { marginCheck } from "../../../src/interpretation/checks/marginCheck.ts";
import { noiseCheck } from "../../../src/interpretation/checks/noiseCheck.ts";
import { smallestCheck, tailsCheck, trendCheck } from "../../../src/interpretation/checks/trendCheck.ts";
import { zoneVarianceCheck } from "../../../src/interpretation/checks/zoneVarianceCheck.ts";
import { checkedAsPublished } from "../../support/cases.ts";

describe("series", () => {
  checkedAsPublished(trendCheck);
});
describe("upper tails of S", () => {
  checkedAsPublished(tailsCheck);
});
describe("smallest chances", () => {
  checkedAsPublished(smallestCheck);
});
describe("noise and change", () => {
  checkedAsPublished(noiseCheck);
});
describe("two areas", () => {
  checkedAsPublished(marginCheck);
});
describe("cores needed", () => {
  checkedAsPublished(coresNeededCheck);
});
describe("precision of a composite", () => {
  checkedAsPublished(precisionCheck);
});
describe("detectable slopes", () => {
  checkedAsPublished(detectableSlopeCheck);
});
describe("variance within zones", () => {
  checkedAsPublished(zoneVarianceCheck);
});
