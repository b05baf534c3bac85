import type { Guideline } from "../../interpretation/guideline.ts";
import { sectionsOf } from "../../interpretation/guideline.ts";
import { noAnswer } from "../../interpretation/outcome.ts";
import { cropRow, needsNone } from "../../interpretation/rules/nitrogenSupplyRule.ts";
import { samplingAdvice } from "../../interpretation/sampling/samplingAdvice.ts";
import { plain } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { harvestedBy, withZonesOf } from "../../interpretation/zoneLife.ts";
import { leavesOut } from "../leftOut.ts";
import { capital, longDate } from "../words.ts";
import type { NextSampling } from "./nextSamplings.ts";
import { bagsFor } from "./nextSamplings.ts";
import { nextFee } from "./testingFees.ts";

const nitrateKinds = ["nitrateLinear", "nitrateTable", "yieldLessNitrate"] as const;

interface NitrogenTest {
  readonly pack: Guideline;
  /** What the guideline does with the result. */
  readonly use: "reads nitrate" | "takes it off the need" | "adds it to the supply";
  /** In June by the height of the crop; in spring for mineral nitrogen, before any is spread. */
  readonly part: "June" | "spring";
}

/** The test by which the field's first guideline that reads one gives nitrogen for a crop it names. */
const testFor = (field: Field, crop: CropId): NitrogenTest | undefined =>
  field.guidelines
    .flatMap((pack): NitrogenTest[] => {
      if (nitrateKinds.some((kind) => sectionsOf(pack, kind).some((rule) => rule.limits.crops?.includes(crop))))
        return [{ pack, use: "reads nitrate", part: "June" }];
      if (sectionsOf(pack, "nitrogenNeed").some((rule) => rule.needs.some((n) => n.crop === crop)))
        return [{ pack, use: "takes it off the need", part: "spring" }];
      const supplied = sectionsOf(pack, "nitrogenSupply").some((rule) => {
        const row = cropRow(rule, crop);
        return row !== undefined && !needsNone(row);
      });
      return supplied ? [{ pack, use: "adds it to the supply", part: "spring" }] : [];
    })
    .at(0);

/**
 * Why a field is tested whose guideline has another way to tell the supply, for most fields: it was tested before, or manure makes the
 * supply large and uncertain. Nothing where neither is on record.
 */
const worthTesting = (field: Field, season: number): string[] => {
  const manured = field.seasons.findLast(
    (s) => s.season < season && s.season >= season - 3 && s.applications.some((a) => a.product.product.kind === "manure"),
  );
  if (manured) return [`Manure was spread here for ${manured.season}, so the supply may be large and uncertain.`];
  const before = field.samplings.findLast((s) => s.purpose === "nitrate");
  return before ? [`It was last tested on ${longDate(before.date)}.`] : [];
};

/** A supply may be told by a sample of the autumn before; a need and a nitrate test by one of the year alone. */
const isTaken = (field: Field, season: number, { use }: NitrogenTest): boolean =>
  field.samplings.some(
    (s) =>
      s.purpose === "nitrate" &&
      (s.date.startsWith(String(season)) || (use === "adds it to the supply" && s.date >= `${season - 1}-09-01` && s.date < `${season}`)),
  );

/** A test of nitrogen for each crop planned that one of the field's guidelines reads one for. A part of the year: no date can be told. */
export const nitrogenTests = (farm: Farm, field: Field): NextSampling[] =>
  leavesOut(farm, "nitrogen")
    ? []
    : [...new Map(field.plan.map((p) => [`${p.season} ${p.crop}`, p])).values()].flatMap(({ season, crop }): NextSampling[] => {
        const test = testFor(field, crop);
        if (test === undefined || isTaken(field, season, test) || `${season}-06-30` < farm.today) return [];
        const worth = test.use === "adds it to the supply" ? worthTesting(field, season) : [];
        if (test.use === "adds it to the supply" && worth.length === 0) return [];
        const on = new Set(field.plan.filter((p) => p.season === season && p.crop === crop).flatMap((p) => p.zones));
        const zones = withZonesOf(field, `${season}-${harvestedBy}`).zones.filter((z) => on.has(z.id));
        const { pack, part } = test;
        const planned = `${capital(crops[crop].label)} is planned, and ${pack.short}`;
        const why =
          test.use === "reads nitrate"
            ? [`${planned} reads nitrate for it.`, windowWords(farm, field, zones, crop)]
            : test.use === "takes it off the need"
              ? [`${planned} takes the mineral nitrogen in the soil off its need.`, ...timingWords(pack)]
              : [`${planned} tells its nitrogen by the mineral nitrogen in the soil.`, ...worth, ...timingWords(pack)];
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
