import type { Guideline, Section } from "../../interpretation/guideline.ts";
import type { Provenance, RuleRow, RuleView } from "./rules/ruleParts.ts";
import { plain } from "../../interpretation/show.ts";
import { crops, methods } from "../../interpretation/vocabulary.ts";
import type { Farm, Reference } from "../../records/model.ts";
import { holdsFor } from "./holdsFor.ts";
import type { InheritedView } from "./inheritedView.ts";
import { inheritedView } from "./inheritedView.ts";
import { evidenceMark, sourceLink } from "../steps.ts";
import { bandsView } from "./rules/bands.ts";
import { targetPhView } from "./rules/targetPh.ts";
import { bufferTableView } from "./rules/bufferTable.ts";
import { removalView } from "./rules/removal.ts";
import { limeQualityView } from "./rules/limeQuality.ts";
import { starterShareView } from "./rules/starterShare.ts";
import { seedRowLimitView } from "./rules/seedRowLimit.ts";
import { cationSumView } from "./rules/cationSum.ts";
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
import { nitrogenNeedView } from "./rules/nitrogenNeed.ts";
import { nitrogenSupplyView } from "./rules/nitrogenSupply.ts";
import { noiseView } from "./rules/noise.ts";
import { profileNitrateView } from "./rules/profileNitrate.ts";
import { yieldLessNitrateView } from "./rules/yieldLessNitrate.ts";
import { limeClassView } from "./rules/limeClass.ts";
import { limeFactorView } from "./rules/limeFactor.ts";
import { sampledFor, samplingSpecView } from "./rules/samplingSpec.ts";
import { acidityMultipleView, acidityTableView, bufferAcidityView, phAluminumView } from "./rules/limeRequirement.ts";
import { quadraticIndexView } from "./rules/quadraticIndex.ts";
import { capital, list } from "../words.ts";

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
    ...(pack.environmentalLimits ?? []).map((l) =>
      row(
        [`Above ${plain(l.above)} ${l.unit} by ${methods[l.method].label}, phosphorus in the soil is a risk to water.`],
        l,
        farm.references,
      ),
    ),
  ],
});

/** What a rule is about: "Lime by Sikora buffer, soil pH and target". */
export const ruleTitle = (section: Section): string => ruleView(section, new Map()).title;

const row = (cells: readonly string[], from: Provenance, references: Farm["references"]): RuleRow => ({
  cells,
  source: sourceLink(from.source, references),
  evidence: evidenceMark(from.evidence),
  note: from.note && capital(from.note),
});

const ruleView = (s: Section, references: Farm["references"]): RuleView => {
  const r = (cells: readonly string[], from: Provenance): RuleRow => row(cells, from, references);
  switch (s.kind) {
    case "bands":
      return { id: s.id, ...bandsView(s, r) };
    case "buildMaintain":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...buildMaintainView(s, r) };
    case "bandRates":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...bandRatesView(s, r) };
    case "linearYield":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...linearYieldView(s, r) };
    case "targetPh":
      return { id: s.id, ...targetPhView(s, r) };
    case "bufferTable":
      return { id: s.id, ...bufferTableView(s, r) };
    case "removal":
      return { id: s.id, ...removalView(s, r) };
    case "limeQuality":
      return { id: s.id, ...limeQualityView(s, r) };
    case "starterShare":
      return { id: s.id, ...starterShareView(s, r) };
    case "seedRowLimit":
      return { id: s.id, ...seedRowLimitView(s, r) };
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
    case "nitrogenSupply":
      return { id: s.id, holdsFor: list(s.crops.flatMap((c) => c.crops).map((crop) => crops[crop].label)), ...nitrogenSupplyView(s, r) };
    case "nitrogenNeed":
      return { id: s.id, holdsFor: list(s.needs.map((n) => crops[n.crop].label)), ...nitrogenNeedView(s, r) };
    case "yieldLessNitrate":
      return { id: s.id, holdsFor: holdsFor(s.limits), ...yieldLessNitrateView(s, r) };
    case "samplingSpec":
      return { id: s.id, holdsFor: sampledFor(s), ...samplingSpecView(s, r) };
    case "noise":
      return { id: s.id, ...noiseView(s, r) };
    case "margin":
      return { id: s.id, ...marginView(s, r) };
    case "baseShare":
      return { id: s.id, ...baseShareView(s, r) };
    case "conversion":
      return { id: s.id, ...conversionView(s, r) };
    case "cationSum":
      return { id: s.id, ...cationSumView(s, r) };
  }
};
