import { describe } from "vitest";
import { samplingDepthCheck } from "../../../src/interpretation/checks/samplingDepthCheck.ts";
import { checkedAsPublished } from "../../support/cases.ts";

describe("the depth a calibration holds for, as published", () => {
  checkedAsPublished(samplingDepthCheck);
});
