import type { Measurement } from "../measurement.ts";
import { depthIn, depthLabel } from "../measurement.ts";
import { monthNames } from "../days.ts";
import type { NoAnswer, Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { CropId } from "../vocabulary.ts";
import { crops } from "../vocabulary.ts";
import { resultStep } from "./bands.ts";
import { noRuleFor } from "./limits.ts";
import { notMineral } from "./mineralOnly.ts";
import { mineralNitrogen, spans } from "./mineralNitrogen.ts";
import type { NitrateHistory, NitrogenPlace } from "./nitrateFacts.ts";
import { historyStep } from "./nitrateFacts.ts";
import type { NitrogenSupplyRule, SupplyCrop } from "./nitrogenSupplyRule.ts";
import { cropRow, needsNone } from "./nitrogenSupplyRule.ts";
import { rateAtIndex } from "./nitrogenSupplyRate.ts";
import type { NutrientRate } from "./nutrientRate.ts";

/** One part of the supply, kg N/ha: the least that it can be and the most, where a range is printed or nobody can tell. */
interface Part {
  readonly least: number;
  readonly most: number;
  readonly steps: readonly Step[];
}

const kg = (least: number, most = least): string => `${plain(least, 1)}${most > least ? ` to ${plain(most, 1)}` : ""} kg N/ha`;
const exactly = (value: number): number => Number(value.toPrecision(12));

const inAutumn = ({ autumn }: NitrogenSupplyRule, m: Measurement): boolean => {
  const month = Number(m.date.slice(5, 7));
  return autumn !== undefined && month >= autumn.months[0] && month <= autumn.months[1];
};

const inSoil = (rule: NitrogenSupplyRule, tests: readonly Measurement[], { facts, pack }: NitrogenPlace): Measurement | NoAnswer => {
  const { depth, autumn, rootingDepth, otherWay } = rule;
  if (tests.length === 0 && otherWay) return noAnswer(`mineral nitrogen was not tested, and ${otherWay}`, ["mineralN"]);
  const shallow = facts.soilCategory !== undefined && rootingDepth?.soils.includes(facts.soilCategory);
  const fits = (m: Measurement): boolean => {
    const { from, to } = depthIn(m.depth, depth.unit);
    return (
      spans(m, depth) ||
      (autumn !== undefined && inAutumn(rule, m) && spans(m, autumn.depth)) ||
      (shallow === true && from <= 1 && to <= depth.to)
    );
  };
  const wanted = `${depthLabel(depth)}${autumn ? `, or from ${monthNames[autumn.months[0] - 1]!} to ${monthNames[autumn.months[1] - 1]!} ${depthLabel(autumn.depth)}` : ""}`;
  return mineralNitrogen(tests, rule.methods, wanted, fits, pack);
};

/** Nitrogen in a standing crop: as recorded, or by what was counted in the field; nothing where the crop is sown after the sampling. */
const inCrop = (rule: NitrogenSupplyRule, row: SupplyCrop, crop: CropId, m: Measurement, history: NitrateHistory): Part | NoAnswer => {
  const { cropNitrogen } = history;
  if (cropNitrogen) return { least: cropNitrogen.value, most: cropNitrogen.value, steps: [historyStep("cropNitrogen", history)] };
  const counted = rule.standing.find((s) => s.crops.includes(crop) && history[s.by] !== undefined);
  if (!counted) {
    if (row.sown === "spring")
      return {
        least: 0,
        most: 0,
        steps: [{ what: `Nitrogen in the crop: ${crops[crop].label} is sown in spring, and none stood yet`, result: kg(0) }],
      };
    const by = rule.standing.find((s) => s.crops.includes(crop))?.by;
    return noAnswer("the nitrogen that the crop holds already is not recorded, and is part of the supply", [by ?? "cropNitrogen"]);
  }
  const { value } = history[counted.by]!;
  const last = counted.rows.at(-1)!;
  if (value > last.count)
    return noAnswer(`${plain(value)} were counted, and nitrogen in the crop is printed up to ${plain(last.count)}`, ["cropNitrogen"]);
  const season = inAutumn(rule, m) ? "autumn" : "spring";
  const above = counted.rows.findIndex((r) => value <= r.count);
  const upper = counted.rows[above]!;
  const lower = counted.rows[above - 1] ?? { count: 0, spring: 0, autumn: 0 };
  const share = (value - lower.count) / (upper.count - lower.count);
  const line = (of: (r: typeof upper) => number): number => exactly(of(lower) + share * (of(upper) - of(lower)));
  const at = (r: typeof upper): number => (season === "autumn" ? (r.autumn ?? r.spring) : r.spring);
  const [least, most] = [line(at), line((r) => r.to ?? at(r))];
  return {
    least,
    most,
    steps: [
      historyStep(counted.by, history),
      {
        what: `Nitrogen in the crop, as estimated in ${season}${value === upper.count ? "" : ", on the line between printed numbers"}`,
        result: kg(least, most),
        source: counted.source,
        evidence: value === upper.count || counted.evidence !== "read" ? counted.evidence : "derived",
        note: counted.note,
      },
    ],
  };
};

/** What humus may still release; a publication that says how much it may be and not how much it is gives two ends. */
const released = ({ release }: NitrogenSupplyRule, history: NitrateHistory): Part | NoAnswer => {
  const { organicMatter } = history;
  if (!organicMatter)
    return noAnswer("the organic matter is not recorded, and nitrogen that it releases is part of the supply", ["organicMatter"]);
  const { above, each, source, evidence, note } = release;
  const percent = historyStep("organicMatter", history);
  const over = exactly(organicMatter.value - above);
  if (over <= 0)
    return {
      least: 0,
      most: 0,
      steps: [percent, { what: `Released by organic matter, up to ${plain(above)} %`, result: kg(0), source, evidence, note }],
    };
  const most = exactly(over * each);
  const expression = `(${plain(organicMatter.value, 1)} − ${plain(above)}) × ${plain(each)}`;
  return {
    least: 0,
    most,
    steps: [percent, { what: "Organic matter may release up to", expression, result: kg(most), source, evidence, note }],
  };
};

const indexOf = ({ indexes }: NitrogenSupplyRule, supply: number): number =>
  indexes.from.filter((from) => Math.round(exactly(supply)) >= from).length;

/** Why the test is not read here: organic soil, or a crop before that leaves more than a test can find. */
const unread = (rule: NitrogenSupplyRule, { facts, history, pack }: NitrogenPlace): NoAnswer | undefined => {
  const organic = notMineral(rule.mineralOnly, facts, pack, "a rate by local advice");
  if (organic) return organic;
  const percent = history.organicMatter?.value;
  if (percent !== undefined && percent >= rule.organicFrom.value)
    return noAnswer(
      `the soil holds ${plain(percent, 1)} % organic matter, and from ${plain(rule.organicFrom.value)} % on ${pack} does not read mineral nitrogen: what organic soil releases cannot be foretold`,
      ["a rate by local advice"],
    );
  const { notAfter } = rule;
  if (!notAfter) return undefined;
  const before = history.previousCrop;
  if (!before) return noAnswer(`the crop before is not recorded, and ${pack} does not read the test after every crop`, ["previousCrop"]);
  return (notAfter.crops as readonly string[]).includes(before.value)
    ? noAnswer(`the crop before was ${crops[before.value as CropId].label}, and ${notAfter.because}`, ["a rate by local advice"])
    : undefined;
};

/**
 * Nitrogen, kg/ha: the supply, which is the mineral nitrogen of the soil, what the crop holds and what humus may release, gives an index,
 * and index, crop and kind of soil the rate. Where the supply is not one number, the rate is the range that its two ends give. No
 * answer for organic soil, for another depth or method, or where a part of the supply is not recorded.
 */
export const rateByNitrogenSupply = (
  rule: NitrogenSupplyRule,
  tests: readonly Measurement[],
  place: NitrogenPlace,
): Outcome<NutrientRate> => {
  const { facts, history, pack } = place;
  if (facts.crop === undefined) return noAnswer("no crop is planned", ["crop"]);
  const row = cropRow(rule, facts.crop);
  if (!row)
    return noRuleFor(
      facts.crop,
      rule.crops.flatMap((c) => c.crops),
      pack,
    );
  const beside = row.cautions.flatMap((c) => (c.crops === undefined || c.crops.includes(facts.crop!) ? [c.says] : []));
  if (needsNone(row)) {
    const { source, evidence, note } = row.tables[0]!;
    const step = { what: `Nitrogen for ${crops[facts.crop].label}, whatever the soil supplies`, result: kg(0), source, evidence, note };
    return answer({ rate: { value: 0, unit: "kg/ha" } }, [step], beside);
  }
  const m = inSoil(rule, tests, place);
  if ("kind" in m) return m;
  const refused = unread(rule, place);
  if (refused) return refused;
  const crop = inCrop(rule, row, facts.crop, m, history);
  if ("kind" in crop) return crop;
  const humus = released(rule, history);
  if ("kind" in humus) return humus;
  const [least, most] = [exactly(m.value + crop.least + humus.least), exactly(m.value + crop.most + humus.most)];
  const [low, high] = [indexOf(rule, least), indexOf(rule, most)];
  const found = rateAtIndex(rule, row, low, high, place);
  if (found.kind === "noAnswer") return found;
  const { source, evidence, note } = rule.indexes;
  const index = low === high ? `${low}` : `${low} to ${high}`;
  const parts = [m.value, crop, humus].map((p) =>
    typeof p === "number" ? plain(p, 1) : `${plain(p.least, 1)}${p.most > p.least ? ` to ${plain(p.most, 1)}` : ""}`,
  );
  const { soilCategory } = facts;
  return answer(
    { ...found.value, level: `a supply of ${kg(least, most).replace(" N", "")}, index ${index}` },
    [
      resultStep(m, "Mineral nitrogen in the soil"),
      ...crop.steps,
      ...humus.steps,
      { what: "Soil nitrogen supply", expression: parts.join(" + "), result: kg(least, most) },
      {
        what: "Index of the supply",
        expression: `0 below ${plain(rule.indexes.from[0]!)}, ${rule.indexes.from.map((from, i) => `${i + 1} from ${plain(from)}`).join(", ")}`,
        result: index,
        source,
        evidence,
        note,
      },
      ...found.steps,
    ],
    [
      ...(high > low ? [`Organic matter or a large crop may supply more than can be told: the lower rate is for the higher supply`] : []),
      ...(rule.doubtAbove && most > rule.doubtAbove.value
        ? [
            `A supply above ${plain(rule.doubtAbove.value)} kg/ha is to be doubted unless it was expected: watch the crop in spring for signs of want`,
          ]
        : []),
      ...found.cautions,
      ...rule.soilDoubts.flatMap((d) => (soilCategory && d.soils.includes(soilCategory) ? [d.says] : [])),
      ...beside,
      ...rule.cautions,
    ],
  );
};
