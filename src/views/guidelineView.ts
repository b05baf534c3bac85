import type { Guideline, Section } from "../interpretation/guideline.ts";
import type { Evidence, Source } from "../interpretation/outcome.ts";
import { depthLabel } from "../interpretation/measurement.ts";
import { conditionLabel } from "../interpretation/rules/conditions.ts";
import { materialLabel } from "../interpretation/rules/limeBasis.ts";
import { pH, plain } from "../interpretation/show.ts";
import { analyteInSentence, analytes, crops, limeIndices, methods, nutrients, purposes } from "../interpretation/vocabulary.ts";
import type { Farm, Reference } from "../records/model.ts";
import { holdsFor } from "./holdsFor.ts";
import type { InheritedView } from "./inheritedView.ts";
import { inheritedView } from "./inheritedView.ts";
import type { EvidenceMark, Link } from "./steps.ts";
import { evidenceMark, sourceLink } from "./steps.ts";
import { bandRatesView } from "./rules/bandRates.ts";
import { baseShareView } from "./rules/baseShare.ts";
import { buildMaintainView } from "./rules/buildMaintain.ts";
import { conversionView } from "./rules/conversion.ts";
import { linearYieldView } from "./rules/linearYield.ts";
import { indexOfftakeView } from "./rules/indexOfftake.ts";
import { legumeCreditView } from "./rules/legumeCredit.ts";
import { manureAvailabilityView } from "./rules/manureAvailability.ts";
import { marginView } from "./rules/margin.ts";
import { nitrateLinearView } from "./rules/nitrateLinear.ts";
import { nitrateTableView } from "./rules/nitrateTable.ts";
import { noiseView } from "./rules/noise.ts";
import { profileNitrateView } from "./rules/profileNitrate.ts";
import { yieldLessNitrateView } from "./rules/yieldLessNitrate.ts";
import { limeClassView } from "./rules/limeClass.ts";
import { limeFactorView } from "./rules/limeFactor.ts";
import { samplingSpecView } from "./rules/samplingSpec.ts";
import { acidityMultipleView, acidityTableView, bufferAcidityView, phAluminumView } from "./rules/limeRequirement.ts";
import { quadraticIndexView } from "./rules/quadraticIndex.ts";
import { capital, list } from "./words.ts";

export interface RuleRow {
  readonly cells: readonly string[];
  readonly source: Link | undefined;
  readonly evidence: EvidenceMark | undefined;
  readonly note: string | undefined;
}

export interface RuleTable {
  readonly caption: string;
  readonly head: readonly string[];
  /** The columns that hold numbers, to be set right-aligned. */
  readonly numeric: readonly number[];
  readonly rows: readonly RuleRow[];
}

export interface RuleView {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly holdsFor: string;
  readonly tables: readonly RuleTable[];
}

export interface GuidelineView {
  readonly pack: Guideline;
  readonly publication: Reference | undefined;
  readonly rules: readonly RuleView[];
  readonly remarks: readonly RuleRow[];
  /** What it took over, where it extends another guideline. */
  readonly inherited: InheritedView | undefined;
}

/** All that a guideline's page shows: every value with its source and evidence. */
export const guidelineView = (farm: Farm, pack: Guideline): GuidelineView => ({
  pack,
  publication: farm.references.get(pack.publication),
  inherited: inheritedView(farm, pack),
  rules: pack.sections.map((s) => ruleView(s, farm.references)),
  remarks: [
    ...pack.remarks.map((each) => row([each.statement], each, farm.references)),
    ...(pack.environmentalLimits ?? []).map((l) => row([`Above ${plain(l.above)} ${l.unit} by ${methods[l.method].label}, phosphorus in the soil is a risk to water.`], l, farm.references)),
  ],
});

/** What a rule is about: "Lime by Sikora buffer, soil pH and target". */
export const ruleTitle = (section: Section): string => ruleView(section, new Map()).title;

/** What the tables of a kind in `rules/` are built with and give back. */
export interface RuleParts {
  readonly row: (cells: readonly string[], from: Provenance) => RuleRow;
  readonly view: RuleView;
}

interface Provenance {
  readonly source: Source;
  readonly evidence?: Evidence | undefined;
  readonly note?: string | undefined;
}

const row = (cells: readonly string[], from: Provenance, references: Farm["references"]): RuleRow => ({
  cells,
  source: sourceLink(from.source, references),
  evidence: evidenceMark(from.evidence),
  note: from.note && capital(from.note),
});

/** How a result finds its class. */
const howClassed = ({ index, roundTo, analyte }: Extract<Section, { kind: "bands" }>): string => {
  if (index) {
    const { name, intercept, perUnit, perPh } = index;
    return `The classes are of the ${name}: ${plain(intercept)} + ${plain(perUnit)} × ${analyteInSentence(analyte)} ${perPh < 0 ? "−" : "+"} ${plain(Math.abs(perPh))} × soil pH.`;
  }
  if (roundTo === undefined) return "A result is in the class whose limits it lies between.";
  return `A result is rounded to ${roundTo === 0 ? "a whole number" : `${roundTo} decimal`} and then classed.`;
};

const whereBegins = ({ from, above }: { readonly from?: number | undefined; readonly above?: number | undefined }): string => {
  if (from !== undefined) return `at ${plain(from)}`;
  return above === undefined ? "at the bottom" : `above ${plain(above)}`;
};

/** "passing 60 mesh", "passing 8 mesh, kept on 60" */
const betweenScreens = ({ passing, retainedOn }: { readonly passing?: number | undefined; readonly retainedOn?: number | undefined }): string => {
  if (passing === undefined) return `kept on ${retainedOn!} mesh`;
  return `passing ${passing} mesh${retainedOn === undefined ? "" : `, kept on ${retainedOn}`}`;
};

const ruleView = (s: Section, references: Farm["references"]): RuleView => {
  const r = (cells: readonly string[], from: Provenance): RuleRow => row(cells, from, references);
  switch (s.kind) {
    case "bands":
      return {
        id: s.id,
        title: `Classes of ${analyteInSentence(s.analyte)}`,
        says: howClassed(s),
        holdsFor: holdsFor(s.limits),
        tables: s.tables.map((t) => ({
          caption: conditionLabel(t.when) || "Every place",
          head: ["Class", "Begins"],
          numeric: [],
          rows: t.bands.map((b) => r([b.name, whereBegins(b)], t)),
        })),
      };
    case "buildMaintain":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...buildMaintainView(s, r) };
    case "bandRates":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...bandRatesView(s, r) };
    case "linearYield":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...linearYieldView(s, r) };
    case "targetPh":
      return {
        id: s.id,
        title: "Soil pH to keep",
        says: s.range ? `The range to stay in is ${pH(s.range.from.value)} to ${pH(s.range.to.value)}.` : "Lime is called for below these values.",
        holdsFor: `pH in ${methods[s.method].label}${s.mineralOnly ? ", on mineral soils alone" : ""}`,
        tables: [
          {
            caption: "Soil pH",
            head: ["Holds for", "What", "pH"],
            numeric: [2],
            rows: [
              ...(s.range ? [r(["every crop", "range, from", pH(s.range.from.value)], s.range.from), r(["every crop", "range, to", pH(s.range.to.value)], s.range.to)] : []),
              ...s.rows.flatMap((each) => [
                ...(each.limeBelow ? [r([conditionLabel(each.when) || "every crop", "lime below", pH(each.limeBelow.value)], each.limeBelow)] : []),
                ...(each.target ? [r([conditionLabel(each.when) || "every crop", "lime up to", pH(each.target.value)], each.target)] : []),
              ]),
            ],
          },
        ],
      };
    case "bufferTable": {
      const doubt = (buffer: number): string | undefined =>
        s.doubtful?.filter((d) => d.buffer === buffer).map((d) => `Target ${pH(d.target)}: ${d.note}`).join(" ") || undefined;
      return {
        id: s.id,
        title: `Lime by ${methods[s.buffer].label}`,
        says: `${capital(s.unit === "ton/ac" ? "tons" : "pounds")} an acre of ${materialLabel(s)}, for ${depthLabel(s.depth)} of soil. Between two printed buffer values the rate is read along the straight line; the column is the lowest printed target at or above the one wanted; outside the table there is no answer.`,
        holdsFor: methods[s.buffer].label,
        tables: [
          {
            caption: `Lime to reach each target pH, ${s.unit}`,
            head: ["Buffer pH", ...s.targets.map(pH)],
            numeric: s.targets.map((_, i) => i + 1),
            rows: s.rows.map(([buffer = 0, ...rates]) => ({ ...r([buffer.toFixed(1), ...rates.map((n) => (s.unit === "ton/ac" ? n.toFixed(1) : plain(n, 0)))], s), note: doubt(buffer) })),
          },
          ...(s.caps
            ? [
                {
                  caption: `Most to apply at one time, ${s.unit} of ${s.material.label}`,
                  head: ["How it is applied", "Most", "The rest"],
                  numeric: [1],
                  rows: s.caps.map((c) => r([c.placement === "surface" ? "left on the surface" : "worked in", plain(c.maximum.value), c.then], c.maximum)),
                },
              ]
            : []),
        ],
      };
    }
    case "removal":
      return {
        id: s.id,
        title: "Taken away by the harvest",
        says: "Yield times these values gives the nutrient removed.",
        holdsFor: "the crops listed",
        tables: [
          {
            caption: s.unit === "kg per t of yield" ? "Removal, kg per t of yield" : "Removal, lb per unit of yield",
            head: ["Crop", "Nutrient", s.unit === "kg per t of yield" ? "kg" : "lb", "Per"],
            numeric: [2],
            rows: s.rows.map((each) => {
              const removed = each.to === undefined ? each.value.toFixed(2) : `${each.value.toFixed(2)} to ${each.to.toFixed(2)}`;
              return r([crops[each.crop].label, nutrients[each.nutrient].symbol, removed, s.unit === "kg per t of yield" ? "t" : crops[each.crop].per], each);
            }),
          },
        ],
      };
    case "limeQuality":
      return {
        id: s.id,
        title: `${limeIndices[s.index].label} of a liming material`,
        says:
          s.fineness.convention === "cumulativePassing"
            ? `Each weight multiplies the percent passing its own screen; the sum is the fineness, which times CCE${s.countsMoisture ? " and dry matter" : ""} gives the index.`
            : `Each factor multiplies the share between two screens; the sum is the fineness, which times CCE${s.countsMoisture ? " and dry matter" : ""} gives the index.`,
        holdsFor: "liming materials with a sieve analysis",
        tables: [
          {
            caption: "Fineness",
            head: ["Screen", "Weight"],
            numeric: [1],
            rows:
              s.fineness.convention === "cumulativePassing"
                ? s.fineness.screens.map((each) => r([`passing ${each.mesh} mesh`, plain(each.weight)], s))
                : s.fineness.classes.map((each) => r([betweenScreens(each), plain(each.factor)], s)),
          },
        ],
      };
    case "starterShare":
      return {
        id: s.id,
        title: `${nutrients[s.nutrient].label} in the planter band`,
        says: "What stands in a band beside the row is worth more than the same spread over the whole field.",
        holdsFor: list(s.crops.map((c) => crops[c].label)),
        tables: [
          {
            caption: "The band",
            head: ["What", "Value"],
            numeric: [1],
            rows: [
              r([`pounds of ${nutrients[s.nutrient].symbol} broadcast that one pound in the band stands for`, plain(s.countsAs)], s),
              ...(s.mostSalt ? [r(["most N and K₂O together in the band, lb per acre", plain(s.mostSalt.value)], s.mostSalt)] : []),
            ],
          },
        ],
      };
    case "seedRowLimit":
      return {
        id: s.id,
        title: "Fertilizer that touches the seed",
        says: "The most N and K₂O together, lb per acre. Between two printed spacings the wider one's limit holds. Urea and UAN are never to touch the seed.",
        holdsFor: list(s.crops.map((c) => crops[c].label)),
        tables: [
          {
            caption: "Most N and K₂O with the seed, lb per acre",
            head: ["Inches between rows", ...s.soils.map((each) => each.name)],
            numeric: s.soils.map((_, i) => i + 1),
            rows: s.rows.map((each) => r(each.map((n) => plain(n)), s)),
          },
        ],
      };
    case "limeClass":
      return { id: s.id, ...limeClassView(s, r) };
    case "bufferAcidity":
      return { id: s.id, ...bufferAcidityView(s, r) };
    case "acidityMultiple":
      return { id: s.id, ...acidityMultipleView(s, r) };
    case "acidityTable":
      return { id: s.id, ...acidityTableView(s, r) };
    case "phAluminum":
      return { id: s.id, ...phAluminumView(s, r) };
    case "quadraticIndex":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...quadraticIndexView(s, r) };
    case "limeFactor":
      return { id: s.id, ...limeFactorView(s, r) };
    case "indexOfftake":
      return { id: s.id, holdsFor: holdsFor(s.limits, "the crops listed"), ...indexOfftakeView(s, r) };
    case "legumeCredit":
      return { id: s.id, holdsFor: "the crop after those listed", ...legumeCreditView(s, r) };
    case "manureAvailability":
      return { id: s.id, holdsFor: "manure with a stated dry matter and organic nitrogen", ...manureAvailabilityView(s, r) };
    case "nitrateLinear":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...nitrateLinearView(s, r) };
    case "nitrateTable":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...nitrateTableView(s, r) };
    case "profileNitrate":
      return { id: s.id, holdsFor: list(s.crops.map((c) => crops[c].label)), ...profileNitrateView(s, r) };
    case "yieldLessNitrate":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...yieldLessNitrateView(s, r) };
    case "samplingSpec":
      return { id: s.id, holdsFor: purposes[s.purpose].label, ...samplingSpecView(s, r) };
    case "noise":
      return { id: s.id, ...noiseView(s, r) };
    case "margin":
      return { id: s.id, ...marginView(s, r) };
    case "baseShare":
      return { id: s.id, ...baseShareView(s, r) };
    case "conversion":
      return { id: s.id, ...conversionView(s, r) };
    case "cationSum":
      return {
        id: s.id,
        title: "Cation exchange capacity by summation",
        says: "Each cation over its equivalent, and the acidity by the buffer's own term, added together. Information, never a rate.",
        holdsFor: "calcium, magnesium, potassium and sodium in ppm by one extractant",
        tables: [
          {
            caption: "Terms",
            head: ["Term", "Value"],
            numeric: [],
            rows: [
              ...(["Ca", "Mg", "K", "Na"] as const).map((base) => r([`${analytes[base].label}, ppm in 1 meq/100 g`, plain(s.equivalents[base])], s.equivalents)),
              ...s.acidity.map((a) => r([`acidity, ${methods[a.buffer].label}`, `${plain(a.slope.value)} × (${a.from.toFixed(1)} − buffer pH)`], a.slope)),
            ],
          },
        ],
      };
  }
};
