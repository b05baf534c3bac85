import { describe, expect, it } from "vitest";
import { depthOf, farmDetails, farmQuestions, fieldQuestions, listed, packageQuestion, samplingDetails, samplingQuestions, seasonQuestions, type Question } from "../../../src/records/starting/newRecordsQuestions.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const asked = (questions: readonly Question[], flag: string): Question => questions.find((q) => q.flag === flag)!;

it.each([
  ["0-8 in", { from: 0, to: 8, unit: "in" }],
  [" 6 to 12.25 IN ", { from: 6, to: 12.25, unit: "in" }],
  ["0–300cm", { from: 0, to: 300, unit: "cm" }],
  ["0-301 cm", undefined],
  ["8-8 in", undefined],
  ["8-6 in", undefined],
  ["0-8 ft", undefined],
  ["0-8 in deep", undefined],
])("takes %j for a depth where it is one", (answer, depth) => expect(depthOf(answer)).toEqual(depth));

it("lists names between commas, and no empty ones", () => expect(listed(" Knoll,, Low end ,")).toEqual(["Knoll", "Low end"]));

// A page would show another name than the record holds, or a terminal obey it.
it.each(["\u202e", "\u2067", "\u2028", "\u0085", "\u001b", "\n"])("takes no name with the unseen sign %j in it", (sign) => {
  for (const question of [asked(farmQuestions([]), "name"), asked(farmDetails(undefined), "lab"), asked(fieldQuestions([]), "name"), asked(fieldQuestions([]), "zones")])
    expect(question.problem(`North${sign}west`), question.flag).toBe("must be one line of 1 to 400 characters");
});

it("tells every guideline that is not known, and that none was named", () => {
  const { problem, as } = asked(farmQuestions(["soil-chemistry", "our-adviser"]), "guidelines");
  expect(problem("soil-chemisty, our-advisor")).toBe('"soil-chemisty" is not known here; did you mean soil-chemistry?; "our-advisor" is not known here; did you mean our-adviser?');
  expect([problem(" , "), problem("our-adviser")]).toEqual(["names no guideline", undefined]);
  expect(as!("Our Adviser,soil chemistry")).toBe("our-adviser, soil-chemistry");
});

it("takes the extractant that the guidelines read where nobody says another", () => expect(asked(farmDetails("olsen"), "extractant").fallback).toBe("olsen"));

describe("of a farm with two laboratories", () => {
  const twoLaboratories = () => {
    const folder = farmFolder()
      .write("labs/south-lab.yaml", tinyFarm[paths.lab]!.replace("North", "South").replace("  basic:", "  routine:") + tinyFarm[paths.lab]!.split("packages:\n")[1]!.replace("  basic:", "  nitrate:"))
      .write("fields/north/samplings/2025-06-10-nitrate.yaml", tinyFarm[paths.sampling]!.split("composites:")[0]!.replace("2025-10-18", "2025-06-10").replace(/^handling.*\n/m, "").replace("routine", "nitrate").replace("north-lab", "south-lab").replace("basic", "routine") + 'composites: [{ label: "N1", zone: west }]\n');
    const farm = folder.read().farm!;
    return { farm, field: farm.fields[0]! };
  };

  it("goes by the field's last sampling of the purpose, for laboratory and package", () => {
    const { farm, field } = twoLaboratories();
    const labs = ["routine", "nitrate", "phCheck"].map((purpose) => asked(samplingDetails(farm, field, purpose, undefined), "lab").fallback);
    expect(labs).toEqual(["north-lab", "south-lab", undefined]);
    const packageAt = (purpose: string, lab: string) => packageQuestion(farm, field, purpose, lab).fallback;
    // What was ordered there for it last time; else the package that is called so.
    expect([packageAt("nitrate", "south-lab"), packageAt("routine", "south-lab"), packageAt("phCheck", "south-lab"), packageAt("phCheck", "north-lab")]).toEqual(["routine", "routine", undefined, "basic"]);
  });

  it("asks nothing where there is nothing to choose", () => {
    const { farm, field } = twoLaboratories();
    const settled = (question: Question) => question.settled;
    expect([asked(samplingQuestions(farm), "field"), asked(samplingDetails(farm, field, "routine", undefined), "lab"), packageQuestion(farm, field, "routine", "north-lab")].map(settled)).toEqual([true, false, true]);
  });

  it("offers the plan's depth and names its day", () => {
    const { farm, field } = twoLaboratories();
    expect(asked(samplingDetails(farm, field, "routine", "0-6 in"), "depth").fallback).toBe("0-6 in");
    expect(asked(samplingQuestions(farm, "2026-10-02"), "date").ask).toBe("The day of sampling, YYYY-MM-DD, planned for 2026-10-02");
  });

  it("takes years of three centuries, and up to nine bags", () => {
    const { farm, field } = twoLaboratories();
    const [year, bags] = [asked(seasonQuestions(farm), "year"), asked(samplingDetails(farm, field, "routine", undefined), "bags")];
    const taken = (question: Question, answers: readonly string[]) => answers.filter((answer) => question.problem(answer) === undefined);
    expect(taken(year, ["1899", "1900", "2199", "2200", "25", "20255"])).toEqual(["1900", "2199"]);
    expect(taken(bags, ["0", "1", "9", "10", "12", "two"])).toEqual(["1", "9"]);
  });
});
