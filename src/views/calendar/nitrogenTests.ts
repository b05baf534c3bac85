import type { Guideline } from "../../interpretation/guideline.ts";
import { sectionsOf } from "../../interpretation/guideline.ts";
import { noAnswer } from "../../interpretation/outcome.ts";
import { samplingAdvice } from "../../interpretation/sampling/samplingAdvice.ts";
import { plain } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { leavesOut } from "../leftOut.ts";
import { capital } from "../words.ts";
import type { NextSampling } from "./nextSamplings.ts";
import { bagsFor } from "./nextSamplings.ts";
import { nextFee } from "./testingFees.ts";

const nitrateKinds = ["nitrateLinear", "nitrateTable", "yieldLessNitrate"] as const;

interface NitrogenTest {
  readonly pack: Guideline;
  /** In June by the height of the crop; in spring for mineral nitrogen, before any is spread. */
  readonly part: "June" | "spring";
}

/** The test by which the field's first guideline that reads one gives nitrogen for a crop it names. */
const testFor = (field: Field, crop: CropId): NitrogenTest | undefined =>
  field.guidelines
    .flatMap((pack): NitrogenTest[] => {
      if (nitrateKinds.some((kind) => sectionsOf(pack, kind).some((rule) => rule.limits.crops?.includes(crop))))
        return [{ pack, part: "June" }];
      const needed = sectionsOf(pack, "nitrogenNeed").some((rule) => rule.needs.some((n) => n.crop === crop));
      return needed ? [{ pack, part: "spring" }] : [];
    })
    .at(0);

/** A test of nitrogen for each crop planned that one of the field's guidelines reads one for. A part of the year: no date can be told. */
export const nitrogenTests = (farm: Farm, field: Field): NextSampling[] =>
  leavesOut(farm, "nitrogen")
    ? []
    : [...new Map(field.plan.map((p) => [`${p.season} ${p.crop}`, p])).values()].flatMap(({ season, crop }): NextSampling[] => {
        const test = testFor(field, crop);
        const taken = field.samplings.some((s) => s.purpose === "nitrate" && s.date.startsWith(String(season)));
        if (test === undefined || taken || `${season}-06-30` < farm.today) return [];
        const on = new Set(field.plan.filter((p) => p.season === season && p.crop === crop).flatMap((p) => p.zones));
        const zones = field.zones.filter((z) => on.has(z.id));
        const { pack, part } = test;
        const planned = `${capital(crops[crop].label)} is planned, and ${pack.short}`;
        const why =
          part === "June"
            ? [`${planned} reads nitrate for it.`, windowWords(farm, field, zones, crop)]
            : [`${planned} takes the mineral nitrogen in the soil off its need.`, ...timingWords(pack)];
        return [
          {
            field,
            purpose: "nitrate",
            slot: { year: season, part },
            overdue: false,
            zones,
            bags: bagsFor(farm, field, zones, "nitrate"),
            fee: zones.length === 0 ? noAnswer("no zone is planned for it") : nextFee(farm, field, "nitrate", zones),
            why,
          },
        ];
      });

/** Earliest and latest by the height of the crop, as the guideline prints them. */
const windowWords = (farm: Farm, field: Field, zones: readonly Zone[], crop: CropId): string => {
  const { outcome, pack } = samplingAdvice(field.guidelines, {
    purpose: "nitrate",
    tillage: field.tillage,
    crop,
    extent: zones.length > 1 ? "zone" : "field",
  }).handling;
  const bounds = outcome.kind === "answer" ? outcome.value.bounds : [];
  const { length } = unitChoices[field.units ?? farm.units];
  const height = (what: "cropHeightLeast" | "cropHeightMost"): string | undefined => {
    const bound = bounds.find((b) => b.what === what);
    return bound && `${plain(convert(bound.value, "in", length), length === "cm" ? 0 : 1)} ${length}`;
  };
  const [least, most] = [height("cropHeightLeast"), height("cropHeightMost")];
  if (least === undefined && most === undefined) return "No chosen guideline says how tall the crop should be.";
  return `${[least && `Not before it stands ${least}`, most && `${least ? "nor" : "Not"} after ${most}`].filter(Boolean).join(", ")}, measured to the center of the whorl (${pack?.short ?? "the guideline"}).`;
};

/** When to sample, as the guideline prints it. */
const timingWords = (pack: Guideline): string[] =>
  sectionsOf(pack, "samplingSpec")
    .filter((rule) => rule.purpose === "nitrate")
    .flatMap((rule) => rule.statements ?? [])
    .flatMap(({ about, statement }) => (about === "timing" || about === "frequency" ? [statement] : []));
