import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { installation } from "../scripts/options.ts";
import { section } from "../src/interpretation/guideline.ts";
import type { Farm } from "../src/records/model.ts";
import { guidelineView } from "../src/views/guidelines/guidelineView.ts";
import { latestAdvice } from "../src/views/advice/sample.ts";
import { ranHere } from "./support/command.ts";
import { farmFolder } from "./support/farmFolder.ts";
import { mergedFarm } from "./support/mergedFarm.ts";
import { paths } from "./support/tinyFarm.ts";

/** The README's blocks that name a file in their first line: file to text. */
const files = new Map(
  [...readFileSync(join(installation, "README.md"), "utf8").matchAll(/```yaml\n# (\S+\.yaml)\n(.*?)```/gs)].map(([, file, text]) => [file!, text!]),
);

/** The tiny farm with the guidelines given, and with the README's files dropped into its folder. */
const farmWith = (guidelines: string): Farm => {
  const folder = farmFolder().change("farm.yaml", "[small-guide]", guidelines).remove("guidelines");
  for (const [file, text] of files) folder.write(file, text);
  const { farm, problems } = folder.read({ library: join(installation, "content") });
  expect(problems).toEqual([]);
  return farm!;
};

const westEnd = (farm: Farm) => latestAdvice(farm, farm.fields[0]!, farm.fields[0]!.zones[0]!)!.advice;

describe("the README's own guideline", () => {
  let farm: Farm;
  beforeEach(() => {
    farm = farmWith("[our-adviser, us-oregon-lime-2025]");
  });

  it("is whole: the guideline and the publication it cites", () => expect([...files.keys()]).toEqual(["guidelines/our-adviser.yaml", "references.yaml"]));

  it("takes over the rates with their steps, sources and all", () => {
    const [own, theirs] = [westEnd(farm), westEnd(farmWith("[us-tristate-974-2020, us-oregon-lime-2025]"))].map(({ rates }) => rates.find((r) => r.nutrient === "K2O")!);
    expect(own!.pack!.id).toBe("our-adviser");
    expect(own!.outcome.kind).toBe("answer");
    expect(own!.outcome).toEqual(theirs!.outcome);
  });

  // The West end has pH 6.2: Tri-State limes corn below 6.0 over such a subsoil, the letter below 6.3, up to 6.6.
  it("limes by the letter where it replaces the section", () => {
    const { needed } = westEnd(farm).lime;
    expect(needed).toMatchObject({ kind: "answer", value: { target: 6.6, pack: { id: "us-oregon-lime-2025" } } });
    expect(needed.kind === "answer" && needed.steps.filter((s) => typeof s.source === "object" && "reference" in s.source && s.source.reference === "adviser-letter-2025").map((s) => s.result)).toEqual(["pH 6.3", "pH 6.6"]);
  });

  it("says on its page what was taken over, and from where", () => {
    const { inherited, rules } = guidelineView(farm, farm.allGuidelines.get("our-adviser")!);
    const taken = rules.filter((rule) => inherited!.of(rule.id)?.words === "Taken over unchanged from");
    expect(inherited!.base).toEqual({ id: "us-tristate-974-2020", short: "Tri-State 2020" });
    expect(inherited!.of("target-ph")).toEqual({ words: "Stands in place of the rule in", guideline: { id: "us-tristate-974-2020", short: "Tri-State 2020" } });
    expect(taken.map((rule) => rule.id)).toEqual(rules.map((rule) => rule.id).filter((id) => id !== "target-ph"));
    expect(inherited!.words).toMatch(/^(Four|Five|Six|Seven|Eight) rules taken over unchanged with their own sources, one rule replaced, no rules added\.$/);
  });
});

it("names every kind of section that a guideline may have", () => {
  const written = readFileSync(join(installation, "README.md"), "utf8");
  expect(section.options.map((each) => each.shape.kind.value).filter((kind) => !written.includes(`\`${kind}\``))).toEqual([]);
});

it("shows every picture there is and no other, each with words for those who do not see it and lighter than 100 kB", () => {
  const shown = [...readFileSync(join(installation, "README.md"), "utf8").matchAll(/!\[([^\]]*)\]\(([^)]*)\)/g)].map(([, words, file]) => ({ words: words!, file: file! }));
  expect(shown.map((p) => p.file).sort()).toEqual(readdirSync(join(installation, ".github", "pictures")).sort().map((name) => `.github/pictures/${name}`));
  for (const { words, file } of shown) {
    expect(words.length, file).toBeGreaterThan(20);
    expect(statSync(join(installation, file)).size, file).toBeLessThan(100_000);
  }
});

it("merges zones as the README says: the new one is what is advised, and the old ones are history", async () => {
  const written = readFileSync(join(installation, "README.md"), "utf8");
  const [yaml] = /(?<=```yaml\n)zones:\n(?: {2}.*\n)+/.exec(written)!;
  const [, ...words] = /npm run redraw -- low-meadow (--end) (\S+) (--begin) "(.*?)" (--since) (\S+) /.exec(written)!;
  const farm = farmFolder().change(paths.field, "plan:", "  strip: { letter: C, name: Strip, until: 2022-03-01 }\nplan:").remove("fields/north/samplings").remove("fields/north/seasons");
  expect(await ranHere("redraw", ["north", ...words, "--write", "--content", farm.path])).toMatchObject({ status: 0, stderr: "" });
  const text = readFileSync(join(farm.path, paths.field), "utf8");
  expect(yaml.replace(/ +#.*/, "").split("\n").filter((line) => !text.includes(`${line}\n`))).toEqual([]);
  const { farm: read, problems } = mergedFarm().read();
  expect(problems).toEqual([]);
  const [field] = read!.fields;
  expect(field!.zones.map((z) => [z.id, latestAdvice(read!, field!, z)?.sampling.date])).toEqual([["long", "2025-10-18"]]);
  expect(field!.formerZones.map((z) => z.id)).toEqual(["west", "east", "strip"]);
});
