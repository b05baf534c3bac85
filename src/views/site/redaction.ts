import type { Farm, Withheld } from "../../records/model.ts";
import { mostComparedWithAll } from "../alike/zonesInPairs.ts";
import { leavesOutProducts } from "../leftOut.ts";
import { numberWord } from "../words.ts";

export interface RedactionRow {
  readonly part: string;
  readonly out: string;
  readonly stays: string;
}

/** What an excerpt of the records leaves out, and what it cannot hide. */
export interface Redaction {
  readonly title: string;
  readonly intro: string;
  readonly rows: readonly RedactionRow[];
  readonly limits: readonly string[];
}

type Part = Withheld["parts"] extends ReadonlySet<infer P> ? P : never;

const parts: Readonly<Record<Part, RedactionRow>> = {
  costs: {
    part: "Costs",
    out: "Prices, fees and every sum of money.",
    stays: "Amounts stay. Whoever knows the prices of the day can reckon what they cost.",
  },
  yields: {
    part: "Yields",
    out: "Yields and yield goals, and every rate, removal and balance that rests on one, since a rate would give the yield away.",
    stays: "Crops and soil tests stay. Whoever knows what such land usually bears can guess at the yield.",
  },
  notes: {
    part: "Notes",
    out: "All that the owner wrote in their own words: reasons, and whom a field is rented from, included.",
    stays: "Names of fields, zones, soils, products and laboratories stay as they were written, and so do the farm's own guidelines.",
  },
  positions: {
    part: "Positions",
    out: `Outlines, maps, positions and the address, and of a field of more than ${numberWord(mostComparedWithAll)} zones which prove alike: only those side by side are compared.`,
    stays:
      "Names stay, and areas to the nearest 100 square meters, so that sums may differ in the last digit from the owner's own. Whoever knows the land knows which field is meant.",
  },
  nitrogen: {
    part: "Nitrogen",
    out: "Nitrogen tests and what else their samplings tested, nitrogen rates, and what was spread of nitrogen.",
    stays: "Of a compound fertilizer or manure the other nutrients stay, without its name.",
  },
};

const years: RedactionRow = {
  part: "Years",
  out: "Everything before the first year shown and after the last.",
  stays:
    "First, last and never hold for the years shown, and so do trends and balances. Advice is worked out without the lime and manure of other years, and none is told for a crop after the last. The rotation that a field's record states stays, and may name crops of other years.",
};

const general = [
  "It cannot promise that nothing is guessed. Who knows the land, the crops' usual yields or the prices of the day can reckon from what is shown.",
  "The labels of bags and the names of laboratories stay, and a laboratory knows its own bags.",
  "The file and line of a result stay. They can tell that something else stands above it, not what.",
  "Advice as issued is shown in part, with its seal. The seal can be proved only on the owner's own file.",
];

/** For one reader, what was left out of what they read; on the owner's own site, all that an excerpt could leave out. */
export const redaction = (farm: Farm): Redaction => {
  const { withheld } = farm;
  if (!withheld)
    return {
      title: "Excerpts for other readers",
      intro:
        "Nothing is left out of this site. The owner can make an excerpt for a landlord or a lender: of some fields, of some years, and without the parts named here. What is left out is taken out of the records before anything is worked out from them, so no page, table or file of the excerpt holds it.",
      rows: [...Object.values(parts), years],
      limits: [
        "What to buy goes with costs, yields or nitrogen: without them another product would be chosen. Sampling plans are the owner's alone.",
        ...general,
        "Look at an excerpt before you hand it over.",
      ],
    };
  const rows = [
    ...(Object.keys(parts) as Part[]).filter((part) => withheld.parts.has(part)).map((part) => parts[part]),
    ...(withheld.years ? [years] : []),
  ];
  const leftOut =
    rows.length === 0
      ? `Of the fields shown here nothing is left out${withheld.someFields ? ", and only they are shown" : ""}.`
      : `What is left out was taken out of the records before anything was worked out from them, so no page, table or file of this site holds it.${withheld.someFields ? " Only some fields are shown." : ""}`;
  return {
    title: "What was left out for this reader",
    intro: `${leftOut} Sampling plans are the owner's alone. A value that is missing here says whether it was left out or never recorded.`,
    rows,
    limits: [
      ...(leavesOutProducts(farm)
        ? ["What fertilizer to buy is left out too: without the parts above, another product would be chosen than the farm's own."]
        : []),
      ...general,
    ],
  };
};
