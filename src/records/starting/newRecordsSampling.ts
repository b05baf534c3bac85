import type { PurposeId } from "../../interpretation/vocabulary.ts";
import { purposes } from "../../interpretation/vocabulary.ts";
import type { NewFile } from "./newRecordsText.ts";
import { quoted } from "./newRecordsText.ts";

export interface NewSampling {
  readonly field: string;
  readonly date: string;
  readonly purpose: PurposeId;
  readonly lab: string;
  readonly package: string;
  readonly depth: { readonly from: number; readonly to: number; readonly unit: "in" | "cm" };
  /** One a bag, in order. */
  readonly bags: readonly { readonly label: string; readonly zone: string; readonly cores?: number | undefined }[];
  readonly metric: boolean;
  /** What the field's guidelines read of a nitrate sampling: nitrate in June, mineral nitrogen in spring, or both; nitrate where they read none. */
  readonly reads: readonly ("nitrateN" | "mineralN")[];
  /** The field's guidelines add what the standing crop holds to mineral nitrogen. */
  readonly asksCrop: boolean;
  /** How many the plan takes for a bag, for the example. */
  readonly cores?: number | undefined;
}

/** A second event of one day has its purpose in its name. */
const endings: Readonly<Record<PurposeId, string>> = { routine: "", phCheck: "-ph", nitrate: "-nitrate" };

const nitrogenKeys = ({ reads, metric, asksCrop }: NewSampling): string =>
  [
    reads.includes("nitrateN")
      ? `# What nitrate rules ask beside the result: the crop's height, from the ground to the center of the whorl; hours from the last
# core to the laboratory, or to drying or chilling; rain since April 1, percent of normal; days since the last heavy rain.
#nitrate: { cropHeight: { value: ${metric ? "25, unit: cm" : "10, unit: in"} }, hoursToLab: 20, rainOfNormal: 100, daysSinceRain: 4 }
`
      : "",
    reads.includes("mineralN")
      ? `# Mineral nitrogen is one result for each zone: the sum of all layers in kg/ha. Layers in bags of their own here would be taken for
# duplicates, and their mean for the sum.
`
      : "",
    asksCrop
      ? `# What stands holds nitrogen too, which is part of the supply: shoots of a cereal on a square meter (main shoots and tillers), the
# green area index of oilseed rape, or kg/ha where somebody estimated or measured it. Leave it out where nothing stands.
#nitrate: { shoots: 900 }            # or { greenAreaIndex: 1.2 }, or { cropNitrogen: { value: 25, unit: kg/ha } }
`
      : "",
  ].join("");

/** One sampling event with a bag for each label, whose results are awaited. */
export const newSampling = (s: NewSampling): NewFile => ({
  path: `fields/${s.field}/samplings/${s.date}${endings[s.purpose]}.yaml`,
  schema: "sampling",
  text: `# One sampling event, ${purposes[s.purpose].label}. It is added to and never rewritten; the day stands in the file's name too.
# A line that begins with # and a key is optional: take the # away and put your own value in place of the example.
date: ${s.date}
# routine, phCheck or nitrate
purpose: ${s.purpose}
# The laboratory's file in labs, and one of its packages: methods, finishes and units come from there.
lab: ${s.lab}
package: ${s.package}
# How deep the cores go. unit: in or cm.
depth: { from: ${s.depth.from}, to: ${s.depth.to}, unit: ${s.depth.unit} }
# How it was done. keeping: air-dried, chilled, frozen or as taken. moisture, of the soil: dry, moist or wet.
#handling: { tool: "tube probe, ${s.metric ? "2 cm" : "3/4 in"}", moisture: moist, keeping: ${s.purpose === "nitrate" ? "chilled" : "air-dried"}, receivedOn: ${s.date}, reportedOn: ${s.date} }
# What the laboratory calls its report, and the file of it in the farm's folder reports, if it is kept there.
#report: { number: "L-1042" }        # and file: 2025-10-28.pdf
${s.purpose === "nitrate" ? nitrogenKeys(s) : ""}# One bag each: cores of one zone, mixed. Write the label on the bag as it stands here. Two bags of one zone are duplicates.
# results stay {} while they are awaited; \`npm run import\` fills them in from the laboratory's file, or write them by hand:
# results: ${exampleResults(s)}
composites:
${s.bags.map((bag, i) => bagText(bag, i, s.cores ?? 15)).join("\n")}
# A wrong result is never edited. Put it right here:
# corrections: a list of { composite: label, analyte: K, was: 96, now: 69, reason: why, date: YYYY-MM-DD }
#note: What the next person should know about this day.
`,
});

/** Numbers that are there to be replaced. */
const exampleResults = ({ purpose, reads }: NewSampling): string =>
  purpose === "nitrate" ? `{ ${reads[0]!}: 42 }` : '{ pH: 6.3, K: 96, Zn: { value: 0.5, qualifier: "<" } }';

/** Cores that a plan counted stand as if they were taken; the comment asks to put right what was not. */
const bagText = ({ label, zone, cores }: NewSampling["bags"][number], i: number, usual: number): string => `  - label: ${quoted(label)}
    zone: ${zone}${i === 0 ? `\n    # How many cores went into the bag${cores === undefined ? "" : ", here as planned; put it right where fewer were taken"}; fewer cores, more noise.` : ""}
    ${cores === undefined ? `#cores: ${usual}` : `cores: ${cores}`}
    results: {}`;
