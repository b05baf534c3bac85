import { describe, expect, it } from "vitest";
import { planHandling, planSetback } from "../../../src/interpretation/sampling/planHandling.ts";
import { pack } from "../../support/packs.ts";

const ohio = pack("us-ohio-sampling");
const atHand = ["ca-britishcolumbia-handling", "us-nebraska-sampling", "us-connecticut-nitrate-sampling", "us-minnesota-sampling", "us-iowa-sampling", "us-colorado-sampling", "us-northdakota-sampling"].map((id) => pack(id));
const texts = (...args: Parameters<typeof planHandling>): string => planHandling(...args).map((t) => t.text).join("\n");

describe("handling", () => {
  it("of a routine sampling: plastic pail, dried within 12 hours (Colorado) and not above 97 degrees (Minnesota), away from a gravel road (Minnesota)", () => {
    const said = texts([ohio], atHand, "routine");
    expect(said).toContain("Mix in a clean plastic pail: galvanized metal spoils the zinc test.");
    expect(texts([ohio], [], "routine")).toContain("Collect in a plastic pail: galvanized metal spoils a zinc test.");
    expect(said).toContain("Dry the soil within 12 h.");
    expect(said).toContain("Dry the soil in air no warmer than 97 °F.");
    expect(said).toContain("Stay 300 ft away from a gravel or crushed-limestone road: move a core that falls nearer.");
    expect(said).not.toContain("paper or cloth");
  });

  it("of a nitrate sampling: paper or cloth bags, at the laboratory within 48 h (British Columbia, read) before 24 h (Nebraska, secondary)", () => {
    const said = texts([ohio], atHand, "nitrate");
    expect(said).toContain("paper or cloth bags");
    expect(said).toContain("Have it at the laboratory within 48 h; otherwise air-dry two to three days at room temperature.");
    expect(said).not.toContain("24 h");
    // Another region's crop heights belong to its own rule.
    expect(said).not.toContain("Not before the crop");
  });

  it("lends one way of keeping bags from spoiling, not three that contradict each other, and no auger for another test's depth", () => {
    const said = texts([ohio], [...atHand, pack("uk-rb209-2023")], "nitrate");
    expect(said.match(/Have it at the laboratory|Dry the soil within|Leave it uncooled/g)).toEqual(["Have it at the laboratory"]);
    // RB209, section 4: the auger is for mineral nitrogen to 90 cm; a June test is of the top foot.
    expect(said).not.toContain("meter long");
    expect(texts([pack("uk-rb209-2023")], [], "nitrate")).toContain("A gouge auger a meter long");
    // To air-dry the bags of a June test changes the ammonium that mineral nitrogen counts: one chosen guideline that reads it is enough.
    for (const chosen of [[pack("de-ordinance-2017")], [ohio, pack("de-ordinance-2017")]]) expect(texts(chosen, atHand, "nitrate")).not.toContain("air-dry");
  });

  it("takes the chosen guideline's word before another's, and marks only the other as lent", () => {
    const tasks = planHandling([pack("us-nebraska-sampling"), pack("us-connecticut-nitrate-sampling")], atHand, "nitrate");
    const way = tasks.filter((t) => t.text.startsWith("Have it at"));
    expect(way.map((t) => [t.text, t.evidence, t.note])).toEqual([["Have it at the laboratory within 24 h; otherwise dry, chill or freeze the bags.", "secondary", undefined]]);
    expect(tasks.map((t) => t.text)).toContain("Not before the crop is 8 in tall.");
  });

  it("is told in metric units to whoever measures in them: 97 °F, 300 ft and 6 in, and no quart", () => {
    const said = texts([ohio], [...atHand, pack("us-illinois-sampling")], "routine", "metric");
    // (97 - 32) x 5 / 9 is 36.1; 300 x 0.3048 is 91.4; 8 x 2.54 is 20.3.
    expect(said).toContain("Dry the soil in air no warmer than 36 °C.");
    expect(said).toContain("Stay 91 m away from a gravel or crushed-limestone road: move a core that falls nearer.");
    expect(texts([pack("us-connecticut-nitrate-sampling")], [], "nitrate", "metric")).toContain("Not before the crop is 20 cm tall.");
    expect(texts([ohio], [pack("us-illinois-sampling")], "routine")).toContain("About a quart fills the bag.");
    expect(texts([ohio], [pack("us-illinois-sampling")], "routine", "metric")).not.toContain("quart");
  });

  it("of mineral nitrogen in spring is not lent from June tests, whose bags are dried", () => {
    const said = texts([pack("de-ordinance-2017")], atHand, "nitrate", "metric");
    expect(said).toContain("When growth begins in spring, before nitrogen is spread.");
    expect(said).toContain("Keep the bags cool and out of the sun, and send them the same day.");
    expect(said).not.toMatch(/dry/i);
    expect(texts([pack("de-ordinance-2017")], atHand, "routine", "metric")).toContain("Dry the soil within 12 h.");
  });

  it.each(["routine", "phCheck", "nitrate"] as const)("of a %s names buried lines first, odd spots, and a source for every line", (purpose) => {
    const tasks = planHandling([], [], purpose);
    expect(tasks[0]!.text).toBe("Have buried lines located before a probe goes into the ground.");
    expect(tasks.some((t) => t.text.startsWith("Leave out odd spots"))).toBe(true);
    expect(planHandling([ohio], atHand, purpose).every((t) => t.source !== undefined)).toBe(true);
  });

  it("of a pH check is that of a routine sampling", () => expect(texts([], atHand, "phCheck")).toContain("Dry the soil within 12 h."));
});

it("the setback from an edge is 100 ft by North Dakota, and none without a guideline that states one", () => {
  expect(planSetback([ohio], atHand)).toMatchObject({ asked: "100 ft", pack: { short: "North Dakota sampling" }, evidence: "secondary" });
  expect(planSetback([ohio], atHand)!.meters).toBeCloseTo(30.48, 9);
  expect(planSetback([ohio], [])).toBeUndefined();
});
