import { notYetChecked } from "../../interpretation/outcome.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { CautionView } from "../advice/cautionViews.ts";
import { cautionView } from "../advice/cautionViews.ts";
import { dosedWords } from "../advice/doses.ts";
import { liquidRate, liquidVolume } from "../advice/liquid.ts";
import { spreadMass, spreadRate, sumOf } from "./seasonAmounts.ts";
import type { SpreadJob } from "./seasonJobs.ts";
import { jobCautions, spreadJobs } from "./seasonJobs.ts";
import type { SpreadLine } from "./seasonLines.ts";
import type { SeasonZone } from "./seasonZones.ts";
import { seasonView } from "./season.ts";
import { area, areaUnit } from "../units.ts";
import { list, longDate } from "../words.ts";

export interface SheetRow {
  readonly field: string;
  readonly zone: SeasonZone["zone"];
  readonly area: string;
  readonly rate: string;
  readonly mass: string;
  /** "25.0 gal/ac, 337 gal" of a liquid; empty otherwise. */
  readonly volume: string;
  /** "1 of 2" where the rate is split; empty otherwise. */
  readonly part: string;
  /** What the driver should know of this zone before starting. */
  readonly beware: string;
}

/** One sheet of paper for the driver: a product, and the zones in the order of fields. */
export interface SpreaderSheet {
  readonly id: string;
  readonly title: string;
  readonly heads: { readonly rate: string; readonly area: string; readonly mass: string };
  readonly rows: readonly SheetRow[];
  readonly area: string;
  readonly mass: string;
  /** What to beware of with this product: on paper each sheet goes to the field alone. */
  readonly cautions: readonly CautionView[];
  /** What the publication says of later applications. */
  readonly then: readonly string[];
  /** "Tri-State 2020", the guidelines the rates rest on. */
  readonly sources: string;
  /** A rate rests on a value that is only remembered or read elsewhere. */
  readonly unchecked: boolean;
}

/** What the driver should beware of: what the advice calls for beside the products that are spread, local codes first. */
export const sheetCautions = (farm: Farm, fields: readonly Field[] = farm.fields): CautionView[] =>
  jobCautions(spreadJobs(farm, fields), ["page"]);

/** The sheets to print, one a product, lime first. A rate in several applications takes a row for each of them. */
export const spreaderSheets = (farm: Farm, fields: readonly Field[] = farm.fields): SpreaderSheet[] => spreadJobs(farm, fields).map(sheet);

export interface SheetsPage {
  readonly lede: string;
  /** The farm, the season and the day, which head every sheet. */
  readonly whose: readonly string[];
  readonly cautions: readonly CautionView[];
  readonly sheets: readonly SpreaderSheet[];
}

/** A page of sheets: of the whole farm, or of the fields that share it. */
export const sheetsPage = (farm: Farm, fields: readonly Field[] = farm.fields): SheetsPage => {
  const sheets = spreaderSheets(farm, fields);
  return {
    lede:
      sheets.length === 0
        ? farm.withheld
          ? "Nothing to spread that this reader is shown."
          : "Nothing to spread."
        : "Take one sheet to the field for each product, and write down what was really spread: the season's record is made from it.",
    whose: [
      `${farm.name}${farm.address ? `, ${farm.address}` : ""}. Season ${seasonView(farm).seasons}.`,
      `As of ${longDate(farm.today)}.`,
    ],
    cautions: sheetCautions(farm, fields),
    sheets,
  };
};

/** Said on the sheets whose own rates rest on such a guideline: the zone's lime may, and its potash not. */
const superseded = cautionView("superseded").id;

const sheet = (job: SpreadJob): SpreaderSheet => {
  const { id, title, kind, units, rows } = job;
  const lines = rows.map((r) => r.line);
  const [acres, pounds] = [sumOf(lines, "acres"), sumOf(lines, "pounds")];
  const squareMeters = rows.reduce((sum, r) => sum + (r.zone.zone.squareMeters ?? 0), 0);
  return {
    id,
    title,
    heads: {
      rate: spreadRate(kind, 0, units).unit,
      area: areaUnit(units),
      mass: kind === "lime" ? unitChoices[units].limeMassWords : unitChoices[units].mass,
    },
    rows: rows.flatMap(({ zone, line }) => Array.from({ length: line.parts }, (_, i) => sheetRow(zone, line, i))),
    area: acres.unknown > 0 ? "not known" : area(squareMeters, units),
    mass: pounds.unknown > 0 ? "not known" : spreadMass(kind, pounds.known, units).split(" ")[0]!,
    cautions: jobCautions([job], ["page"]).filter(
      ({ id }) => id !== superseded || lines.some((line) => line.packs.some((p) => p.status === "superseded")),
    ),
    then: [...new Set(lines.flatMap((line) => line.then ?? []))],
    sources: list([...new Set(lines.flatMap((line) => line.packs.map((p) => p.short)))]),
    unchecked: lines.some((line) => notYetChecked(line.evidence?.grade)),
  };
};

const sheetRow = ({ field, zone, units, old, advised }: SeasonZone, line: SpreadLine, part: number): SheetRow => ({
  field: field.name,
  zone,
  area: zone.squareMeters === undefined ? "not known" : area(zone.squareMeters, units),
  rate: spreadRate(line.kind, line.rate / line.parts, units).value,
  mass: line.pounds === undefined ? "not known" : spreadMass(line.kind, line.pounds / line.parts, units).split(" ")[0]!,
  volume: [
    liquidRate(line.product, line.rate / line.parts, units),
    line.pounds === undefined ? undefined : liquidVolume(line.product, line.pounds / line.parts, units),
  ]
    .filter((v) => v !== undefined)
    .join(", "),
  part: line.parts > 1 ? `${part + 1} of ${line.parts}` : "",
  beware: [
    old && advised ? `sampled ${longDate(advised.advice.sampling.date)}, overdue: sample again first` : "",
    ...line.doses.map((dosed) => dosedWords(dosed, units)),
    line.already.length > 0 && part === 0 ? `spread already: ${list(line.already)}` : "",
  ]
    .filter(Boolean)
    .join("; "),
});
