import { readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import { ranApart, ranHere } from "../support/command.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";
import { tinyFarm } from "../support/tinyFarm.ts";

/** Run the command on a sample from the folder the sample lies in, as a person would. */
const interpret = (text: string | undefined, ...more: string[]) => {
  const folder = temporaryFolder();
  if (text !== undefined) writeFileSync(join(folder, "sample.yaml"), text);
  const files = text === undefined ? [] : ["sample.yaml"];
  return ranHere("interpret", [...files, ...more], { from: folder });
};

interface Printed {
  nitrogen?: { value: number; unit: string; guideline: string; atMost?: boolean };
  rates: Record<string, { value: number; unit: string; steps: { source?: unknown }[]; evidence: string; noAnswer?: { because: string; missing: string[] } }>;
  ratings: Record<string, { band: string; position: string }>;
  lime: { requirement: { value: number; unit: string } | "none"; material?: { value: number; unit: string }; noAnswer?: { because: string; missing: string[] } };
}

const triState = (crop: string, goal: string, soil: string, results: string): string => `guideline: us-tristate-974-2020
crop: ${crop}
yieldGoal: ${goal}
depth: { from: 0, to: 8, unit: in }
soil: ${soil}
results: ${results}
`;
const lime = (guidelines: string, target: number, depth: number, results: string, more = ""): string => `guideline: ${guidelines}
crop: corn
depth: { from: 0, to: ${depth}, unit: in }
soil: { subsoilPh: 6.5 }
targetPh: ${target}
${more}results: ${results}
`;

/** Published worked examples: the publication's own figures, or its equations worked by hand. */
const examples: [string, string, (printed: Printed) => void, RegExp][] = [
  [
    "Tri-State 2020, corn of 200 bu, CEC 10, 80 ppm of potassium: 60 + 40 + 20",
    triState("corn", "{ value: 200, unit: bu/ac }", "{ cec: 10 }", "{ K: { value: 80, unit: ppm, method: mehlich3 } }"),
    ({ rates, ratings }) => {
      expect(rates["K2O"]).toMatchObject({ value: 120, unit: "lb/ac" });
      expect(ratings["K"]).toMatchObject({ band: "deficient", position: "below" });
    },
    /^Apply 120 lb\/ac of potash \(K₂O\), says Tri-State 2020 \(.*\)\.$/m,
  ],
  [
    "Tri-State 2020, the same on sand of CEC 4: (100 - 80) x 1.2 + 40 + 20",
    triState("corn", "{ value: 200, unit: bu/ac }", "{ cec: 4 }", "{ K: { value: 80, unit: ppm, method: mehlich3 } }"),
    ({ rates }) => expect(rates["K2O"]!.value).toBeCloseTo(84, 9),
    /^Apply 84 lb\/ac of potash/m,
  ],
  [
    "Tri-State 2020, 150 ppm of potassium is kept: 40 + 20",
    triState("corn", "{ value: 200, unit: bu/ac }", "{ cec: 10 }", "{ K: { value: 150, unit: ppm, method: mehlich3 } }"),
    ({ rates }) => expect(rates["K2O"]!.value).toBe(60),
    /^Apply 60 lb\/ac of potash/m,
  ],
  [
    "Tri-State 2020, above the maintenance limit nothing is applied",
    triState("corn", "{ value: 200, unit: bu/ac }", "{ cec: 10 }", "{ K: { value: 171, unit: ppm, method: mehlich3 } }"),
    ({ rates }) => expect(rates["K2O"]!.value).toBe(0),
    /^Apply no potash \(K₂O\), says Tri-State 2020/m,
  ],
  [
    "Oregon 2025, the printed example: buffer 6.0 to pH 5.6, 1.7 tons of 100-score lime",
    lime("[us-tristate-974-2020, us-oregon-lime-2025]", 5.6, 6, "{ pH: { value: 5.2, unit: pH, method: water1to1 }, bufferPh: { value: 6.0, unit: pH, method: sikora } }", "material: { name: limestone, stated: { limeScore: 100 } }\n"),
    (printed) => {
      expect(printed.lime.requirement).toEqual({ value: 1.7, unit: "ton/ac" });
      expect(printed.lime.material).toMatchObject({ value: 1.7, unit: "ton/ac" });
    },
    /^Spread 1\.7 ton\/ac of limestone to reach pH 5\.6, says Oregon 2025/m,
  ],
  [
    "Iowa 2002, SMP buffer 6.4 to pH 6.5: 3,500 lb of ECCE",
    lime("us-iowa-lime-2002", 6.5, 6, "{ pH: { value: 5.9, unit: pH, method: water1to1 }, bufferPh: { value: 6.4, unit: pH, method: smp } }"),
    (printed) => expect(printed.lime.requirement).toEqual({ value: 3500, unit: "lb/ac" }),
    /^The soil needs 3,500 lb\/ac of .* to reach pH 6\.5/m,
  ],
  [
    "RB209 2010, winter wheat of 10 t/ha with the straw incorporated, P index 1: 90 + 2 x 7.8",
    `guideline: uk-rb209-2010
crop: winterWheat
straw: incorporated
yieldGoal: { value: 10, unit: t/ha }
depth: { from: 0, to: 15, unit: cm }
results: { P: { value: 12, unit: mg/l, method: olsen } }
`,
    ({ rates }) => {
      expect(rates["P2O5"]!.unit).toBe("kg/ha");
      expect(Math.round(rates["P2O5"]!.value)).toBe(106);
    },
    /^Apply 106 kg\/ha of phosphate \(P₂O₅\), says RB209 2010/m,
  ],
  [
    "Iowa, late-spring nitrate test of 15 ppm: (25 - 15) x 8",
    `guideline: us-iowa-nitrate
crop: corn
depth: { from: 0, to: 12, unit: in }
history: { previousCrop: corn, cropHeight: 8, cores: 18, keeping: chilled, manuredSinceHarvest: "no", rainOfNormal: 100 }
results: { nitrateN: { value: 15, unit: ppm, method: potassiumChloride } }
`,
    ({ nitrogen }) => expect(nitrogen).toMatchObject({ value: 80, unit: "lb/ac", guideline: "us-iowa-nitrate" }),
    /^Apply 80 lb\/ac of nitrogen \(N\), says Iowa late-spring nitrate/m,
  ],
  [
    // Annex 4 of the ordinance, by hand: 230 at 8 t/ha, 5 more for half a ton, less 45 in the soil and 10 after rape.
    "Germany's ordinance, winter wheat of 8.5 t/ha after rape, Nmin 45: the most that is allowed, and no dose",
    `guideline: de-ordinance-2017
units: metric
crop: winterWheat
yieldGoal: { value: 8.5, unit: t/ha }
depth: { from: 0, to: 90, unit: cm }
soil: { organicMatter: 2.5 }
history: { previousCrop: winterOilseedRape, manure: [] }
results: { mineralN: { value: 45, unit: kg/ha, method: calciumChlorideNitrogen } }
`,
    ({ nitrogen }) => expect(nitrogen).toMatchObject({ value: 180, unit: "kg/ha", atMost: true }),
    /^Apply at most 180 kg\/ha of nitrogen \(N\), says German ordinance/m,
  ],
  [
    // 180 less what half a kilogram more in the soil takes off: 179.5 of which 179 may be given in whole kilograms.
    "Germany's ordinance, a limit that is no whole number: rounded down",
    `guideline: de-ordinance-2017
crop: winterWheat
yieldGoal: { value: 8.5, unit: t/ha }
depth: { from: 0, to: 90, unit: cm }
soil: { organicMatter: 2.5 }
history: { previousCrop: winterOilseedRape, manure: [] }
results: { mineralN: { value: 45.5, unit: kg/ha, method: calciumChlorideNitrogen } }
`,
    ({ nitrogen }) => expect(nitrogen).toMatchObject({ value: 179.5, unit: "kg/ha", atMost: true }),
    /^Apply at most 179 kg\/ha of nitrogen \(N\), says German ordinance/m,
  ],
  [
    // Example 4.3 of section 4: wheat after potatoes, medium soil, 115 kg in the soil and 25 in the crop.
    "Britain's guide, its own worked example of nitrogen",
    `guideline: uk-rb209-2023
crop: winterWheat
yieldGoal: { value: 8, unit: t/ha }
depth: { from: 0, to: 90, unit: cm }
soil: { category: medium, organicMatter: 2.5 }
history: { previousCrop: potatoes, cropNitrogen: 25 }
results: { mineralN: { value: 115, unit: kg/ha, method: potassiumChloride } }
`,
    ({ nitrogen }) => expect(nitrogen).toMatchObject({ value: 120, unit: "kg/ha", level: "a supply of 140 kg/ha, index 4" }),
    /^Apply 120 kg\/ha of nitrogen \(N\), at a supply of 140 kg\/ha, index 4, says RB209 2023/m,
  ],
  [
    "the doses that a rate is the sum of, as RB209 prints them for silage",
    `guideline: uk-rb209-2010
units: metric
crop: grassSilageTwoCuts
depth: { from: 0, to: 7.5, unit: cm }
results: { P: { value: 13, unit: mg/l, method: olsen } }
`,
    ({ rates }) => expect(rates["P2O5"]).toMatchObject({ value: 95, unit: "kg/ha", doses: [{ value: 70, when: "for the first cut" }, { value: 25, when: "for the second cut" }] }),
    /^Apply 95 kg\/ha of phosphate.*In doses: 70 kg\/ha for the first cut, 25 kg\/ha for the second cut\.$/m,
  ],
  [
    "no phosphate rate without a phosphorus test, and the reason",
    triState("corn", "{ value: 200, unit: bu/ac }", "{ cec: 10 }", "{ K: { value: 150, unit: ppm, method: mehlich3 } }"),
    ({ rates }) => expect(rates["P2O5"]!.noAnswer).toEqual({ because: "phosphorus was not tested", missing: ["P"] }),
    /^No phosphate rate, because phosphorus was not tested\. Missing: a phosphorus test\.$/m,
  ],
];

describe("a published example", () => {
  it.each(examples)("%s", async (_, sample, holds, sentence) => {
    const data = await interpret(sample, "--json");
    expect(data.stderr).toBe("");
    expect(data.status).toBe(0);
    holds(JSON.parse(data.stdout) as Printed);
    const text = await interpret(sample);
    expect(text.status).toBe(0);
    expect(text.stdout).toMatch(sentence);
    expect(text.stdout.indexOf("Cautions:")).toBeGreaterThan(text.stdout.search(sentence));
  });
});

it("every rate has steps with a source, and a grade of evidence", () => {
  const folder = temporaryFolder();
  writeFileSync(join(folder, "sample.yaml"), examples[0]![1]);
  const { rates } = JSON.parse(ranApart("interpret", ["sample.yaml", "--json"], { from: folder }).stdout) as Printed;
  expect(rates["K2O"]!.evidence).toBe("secondary");
  expect(rates["K2O"]!.steps.filter((s) => s.source).length).toBeGreaterThan(4);
});

describe("in other units", () => {
  // 120 lb/ac ÷ 43.56 = 2.75 lb on 1,000 sq ft; the garden is also warned of lead.
  const [, corn] = examples[0]!;
  it("a garden by 1,000 sq ft", async () => {
    const { stdout } = await interpret(`${corn}units: garden\n`);
    expect(stdout).toMatch(/^Apply 2\.8 lb\/1000 sq ft of potash \(K₂O\), says Tri-State 2020/m);
    expect(stdout).toMatch(/^- Garden soil .* can hold lead/m);
  });
  it("kg/ha, and as data beside the guideline's own", async () => {
    const { rates } = JSON.parse((await interpret(`${corn}units: metric\n`, "--json")).stdout) as { rates: Record<string, unknown> };
    expect(rates["K2O"]).toMatchObject({ value: 120, unit: "lb/ac", shown: { value: "135", unit: "kg/ha" } });
  });
  // 80 lb and 1.7 US tons an acre: by 1.12085 and 2.2417.
  it("nitrogen and the liming material as well", async () => {
    const inMetric = async (example: string): Promise<unknown> => {
      const text = examples.find(([what]) => what.startsWith(example))![1];
      return JSON.parse((await interpret(`${text}units: metric\n`, "--json")).stdout);
    };
    expect(await inMetric("Iowa, late-spring")).toMatchObject({ nitrogen: { value: 80, unit: "lb/ac", shown: { value: "90", unit: "kg/ha" } } });
    expect(await inMetric("Oregon 2025")).toMatchObject({ lime: { material: { value: 1.7, unit: "ton/ac", shown: { value: "3.8", unit: "t/ha" } } } });
  });
});

describe("a nitrogen test that no chosen guideline reads", () => {
  const june = (guideline: string, crop: string): string => `guideline: ${guideline}
${crop}depth: { from: 0, to: 12, unit: in }
results: { nitrateN: { value: 15, unit: ppm, method: potassiumChloride } }
`;
  it.each([
    ["for the crop", june("us-iowa-nitrate", "crop: wheat\n"), "No nitrogen rate, because none of the chosen guidelines reads nitrate-N for wheat. Missing: a guideline that tells nitrogen for wheat, or your own plan for it."],
    ["for a legume, which might be taken to need none", june("us-iowa-nitrate", "crop: soybean\n"), "No nitrogen rate, because none of the chosen guidelines reads nitrate-N for soybean. Missing: a guideline that tells nitrogen for soybean, or your own plan for it."],
    ["at all", june("us-tristate-974-2020", "crop: corn\n"), "No nitrogen rate, because none of the chosen guidelines reads nitrate-N for corn. Missing: a guideline that tells nitrogen for corn, or your own plan for it."],
    ["without a crop", june("us-iowa-nitrate", ""), "No nitrogen rate, because no crop is planned. Missing: a planned crop in the sample's file."],
  ])("%s is told, in words and as data", async (_, text, line) => {
    expect((await interpret(text)).stdout.split("\n")).toContain(line);
    const { nitrogen } = JSON.parse((await interpret(text, "--json")).stdout) as { nitrogen: { noAnswer: { because: string } } };
    expect(line).toContain(`because ${nitrogen.noAnswer.because}. Missing: `);
  });
  it("is nothing to tell where nitrogen was not tested", async () => {
    const phosphorus = june("us-tristate-974-2020", "crop: corn\n").replace("nitrateN: { value: 15, unit: ppm, method: potassiumChloride }", "P: { value: 15, unit: ppm, method: mehlich3, finish: icp }");
    expect((await interpret(phosphorus)).stdout).not.toContain("nitrogen rate");
  });
});

describe("what a publication adds to a number stands beside it", () => {
  const said = async (guideline: string, crop: string, results: string, more = "") => (await interpret(`guideline: ${guideline}\ncrop: ${crop}\nyieldGoal: { value: 100, unit: bu/ac }\ndepth: { from: 0, to: 6, unit: in }\n${more}results: ${results}\n`)).stdout;
  it("in a line of the sum", async () =>
    expect(await said("us-iowa-pm1688-2013", "corn", "{ Zn: { value: 0.4, unit: ppm, method: dtpa } }")).toMatch(/= low \(broadcast; in a band beside the row 2 lb where low and 1 where marginal/));
  it("after a class that no rate follows from", async () =>
    expect(await said("us-newjersey-rutgers", "corn", "{ Zn: { value: 55, unit: ppm, method: mehlich3 } }")).toContain("warning (read in the publication). Below the critical value is deficient; above the high one is a warning of possible toxicity."));
  it("but not after the soil pH, whose limits are told with the lime", async () =>
    expect(await said("us-pennsylvania-agronomy-guide", "corn", "{ pH: { value: 6.8, unit: pH, method: water1to1 } }")).toMatch(/^Soil pH, 6\.8: in range \(read in the publication\)\.$/m));
  it("and of the depth to be limed, nothing that a sample without a field cannot set", async () =>
    expect(await said("us-oregon-lime-2025", "corn", "{ pH: { value: 5.4, unit: pH, method: water1to1 }, bufferPh: { value: 6.3, unit: pH, method: sikora } }", "targetPh: 6.4\n")).toContain("(the depth sampled; set limeDepth where lime is worked in to another depth)"));
  it("and a lime rate without a material's quality is told all the same, also above its own target", async () => {
    const text = await said("us-vermont-lime", "corn", "{ pH: { value: 6.6, unit: pH, method: water1to2 }, Al: { value: 60, unit: ppm, method: modifiedMorgan } }", "material: { name: aglime, stated: { cce: 90 } }\n");
    expect(text).toMatch(/^The soil needs 1 ton\/ac of lime of a quality not stated, though it is at pH 6\.5 already, says Vermont/m);
    expect(text).toMatch(/^No rate of aglime, because Vermont does not say of what quality of lime/m);
  });
});

it("lime is taken to lie on a lawn, in parts of at most 100 lb on 1,000 square feet, unless the sample says it is worked in", async () => {
  const lawn = (more: string): string => `guideline: us-pennsylvania-turf-lime
units: garden
crop: turf
depth: { from: 0, to: 4, unit: in }
${more}material: { name: pellets, stated: { cce: 100 } }
results:
  pH: { value: 5.6, unit: pH, method: water1to1 }
  exchangeableAcidity: { value: 20, unit: meq/100 g, method: mehlichBuffer }
`;
  expect((await interpret(lawn(""))).stdout).toMatch(/^Spread 390 lb\/1000 sq ft of pellets to reach pH 6\.5, in 4 applications of 98 lb\/1000 sq ft, .*Spread the rest 4 to 6 months apart\.$/m);
  expect((await interpret(lawn("incorporated: true\n"))).stdout).toMatch(/^Spread 390 lb\/1000 sq ft of pellets to reach pH 6\.5, says/m);
});

it("magnesium that may be short beside potassium is told, by the guideline that looks at shares", async () => {
  const sample = (Mg: number): string => `guideline: [us-michigan-base-saturation, soil-chemistry]
depth: { from: 0, to: 8, unit: in }
results:
  bufferPh: { value: 6.7, unit: pH, method: smp }
  K: { value: 200, unit: ppm, method: ammoniumAcetate }
  Ca: { value: 1000, unit: ppm, method: ammoniumAcetate }
  Mg: { value: ${Mg}, unit: ppm, method: ammoniumAcetate }
`;
  // meq: Ca 5, K 200 ÷ 391 = 0.51, Mg 45 ÷ 120 = 0.375; of 5.89 bases Mg holds 6.4 percent and K 8.7.
  expect((await interpret(sample(45))).stdout).toMatch(/^Magnesium should hold more than 3 percent of the bases, and more than potassium does: it holds 6\.4 percent, and potassium 8\.7: it may be short \[Michigan State/m);
  expect((await interpret(sample(90))).stdout).not.toContain("may be short");
  expect((JSON.parse((await interpret(sample(45), "--json")).stdout) as { cations: { short: unknown[] } }).cations.short).toHaveLength(1);
});

it("limy soil is read with the CEC that the rule sets for it, where calcium is known to hold four fifths: (112.5 - 100) x 1.75 + 40.5 + 20", async () => {
  const acetate = (analyte: string, value: number) => `  ${analyte}: { value: ${value}, unit: ppm, method: ammoniumAcetate }\n`;
  const sample = `guideline: [us-tristate-e2567-1995, soil-chemistry]
crop: corn
yieldGoal: { value: 150, unit: bu/ac }
depth: { from: 0, to: 8, unit: in }
soil: { cec: 30, organicMatter: 3 }
results:
  pH: { value: 7.9, unit: pH, method: water1to1 }
  bufferPh: { value: 7.3, unit: pH, method: smp }
${acetate("K", 100)}${acetate("Ca", 5600)}${acetate("Mg", 300)}`;
  const { rates } = JSON.parse((await interpret(sample, "--json")).stdout) as Printed;
  expect(rates["K2O"]!.value).toBeCloseTo(82.375, 9);
});

it("a value that no soil shows, or that looks like another unit, is read and warned of at its place", async () => {
  const sample = "guideline: us-tristate-974-2020\ndepth: { from: 0, to: 8, unit: in }\nresults:\n  pH: { value: 16.0, unit: pH, method: water1to1 }\n  K: { value: 640, unit: ppm, method: mehlich3 }\n";
  const { status, stdout, stderr } = await interpret(sample);
  expect(status).toBe(0);
  expect(stdout).toContain("Potassium, 640 ppm");
  expect(stderr.trim().split("\n").slice(0, 2)).toEqual([
    "sample.yaml:4:7: results.pH: warning: 16 is outside what soil shows (3 to 10.5); check the sheet",
    "sample.yaml:5:6: results.K: warning: 640 ppm is unusually high; is it lb/ac, which is about twice the ppm?",
  ]);
  expect((await interpret(sample.replace("16.0", "6.0").replace("640", "540"))).stderr).toBe("");
  const exchanged = sample.replace("16.0", "6.4").replace("  K: { value: 640, unit: ppm, method: mehlich3 }", "  bufferPh: { value: 5.7, unit: pH, method: sikora }");
  expect((await interpret(exchanged)).stderr).toMatch(/^sample\.yaml:5:\d+: results\.bufferPh: warning: 5\.7 is below the soil pH, 6\.4, /m);
});

describe("a farm's own guideline", () => {
  const sample = `guideline: small-guide
depth: { from: 0, to: 6, unit: in }
results: { K: { value: 150, unit: ppm, method: mehlich3 } }
`;
  it("is read from the folder given with --content", async () => {
    const { status, stdout, stderr } = await interpret(sample, "--content", farmFolder().path);
    expect([status, stderr]).toEqual([0, ""]);
    expect(stdout).toContain("Potassium, 150 ppm: enough (read in the publication).");
  });
  it("must be sound", async () => {
    const own = farmFolder().change("guidelines/small-guide.yaml", "bulletin-1, at: Table 1", "letter, at: Table 1");
    const { status, stderr } = await interpret(sample, "--content", own.path);
    expect(status).toBe(1);
    expect(stderr).toContain('guidelines/small-guide.yaml:17:30: sections[1].tables[1].source.reference: reference "letter" is not in references.yaml');
  });
  it("is not known without it", async () => expect((await interpret(sample)).stderr).toContain('guideline "small-guide" is not known'));
  it("stands in place of the installed one of the same id", async () => {
    const own = farmFolder().write("guidelines/us-tristate-974-2020.yaml", tinyFarm["guidelines/small-guide.yaml"]!);
    const { stdout } = await interpret(sample.replace("small-guide", "us-tristate-974-2020"), "--content", own.path);
    expect(stdout).toContain("read by Small.");
  });
});

describe("a mistake is told in a line, without a stack", () => {
  const good = examples[0]![1];
  it.each([
    ["a guideline that is not known", good.replace("us-tristate-974-2020", "us-tristate-974-2021"), [], /^sample\.yaml:1:12: guideline: guideline "us-tristate-974-2021" is not known; did you mean us-tristate-974-2020\?$/],
    ["a key that is not known", good.replace("crop:", "crops:"), [], /^sample\.yaml:2:1: crops: is not a key known here; did you mean crop\?$/],
    ["a method that does not measure it", good.replace("mehlich3", "sikora"), [], /^sample\.yaml:6:\d+: results\.K\.method: Sikora buffer does not measure K; allowed: /],
    ["text that is no YAML", "guideline: [us", [], /^sample\.yaml:\d+:\d+: file: /],
    ["an option that is not known", good, ["--loud"], /^Unknown option '--loud'\. Options: --json, --guidelines, --content, --help$/],
    ["a farm's folder that is not there", good, ["--content", "./nowhere"], /^--content \.\/nowhere is not a folder$/],
    ["the guidelines and a file", good, ["--guidelines"], /^--guidelines reads no sample; leave the file out$/],
    ["two files", good, ["other.yaml"], /^give one sample's file, such as sample\.yaml, not 2 files$/],
    ["no file", undefined, [], /^give one sample's file, such as sample\.yaml$/],
    ["a file that is not there", undefined, ["nowhere.yaml"], /^there is no file nowhere\.yaml$/],
  ] as const)("%s", async (_, text, more, message) => {
    const { status, stdout, stderr } = await interpret(text, ...more);
    expect(status).toBe(1);
    expect(stdout).toBe("");
    expect(stderr.trim()).toMatch(message);
    expect(stderr.trim().split("\n")).toHaveLength(1);
  });
});

it("lists every guideline that may be named, and what has taken the place of an old one", async () => {
  const { status, stdout } = await interpret(undefined, "--guidelines");
  expect(status).toBe(0);
  const shipped = readdirSync(join(installation, "content", "guidelines")).map((f) => f.replace(/\.yaml$/, ""));
  expect(stdout.split("\n").filter((line) => /^\S/.test(line))).toEqual(shipped.sort());
  expect(stdout).toMatch(/us-iowa-lime-2002\n {4}.*; superseded/);
});
