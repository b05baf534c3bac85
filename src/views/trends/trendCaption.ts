import { isNitrogenTest } from "../../interpretation/nitrogen/nitrateNitrogen.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { Zone } from "../../records/model.ts";
import { leftOutForReader } from "../leftOut.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import type { TrendPanel } from "./trendPanel.ts";
import { list, zonesOrCount } from "../words.ts";
import { isWithheld } from "../../interpretation/firstAnswer.ts";

/** The heading of the figure: where the zones stand by the newest sampling, or that nobody can say. */
export const finding = (analyte: AnalyteId, panels: readonly TrendPanel[], advice: ReadonlyMap<string, ZoneAdvice>): string => {
  const label = analytes[analyte].label;
  const standing = panels.flatMap(({ zone }) => {
    const rating = advice.get(zone.id)?.advice.ratings.find((r) => r.measurement.analyte === analyte);
    return rating?.outcome.kind === "answer" && rating.outcome.value.position ? [{ zone, position: rating.outcome.value.position }] : [];
  });
  // A nitrate test speaks to one crop in one year and has no classes; it must not read as a test that nobody interprets.
  const hidden = panels.some(({ zone }) =>
    advice.get(zone.id)?.advice.ratings.some((r) => r.measurement.analyte === analyte && isWithheld(r.outcome)),
  );
  if (standing.length === 0 && hidden) return `${label}: what is low or high goes by the next crop, which is ${leftOutForReader}`;
  if (standing.length === 0)
    return isNitrogenTest({ analyte })
      ? `${label}: read for the nitrogen of that year's crop, not as low or high`
      : `${label}: no guideline chosen says what is low or high`;
  const low = standing.filter((s) => s.position === "below").map((s) => s.zone);
  const high = standing.filter((s) => s.position === "above").map((s) => s.zone);
  const named = (zones: readonly Zone[]): string => zonesOrCount(zones, panels.length);
  if (low.length > 0)
    return low.length === panels.length && low.length > 2
      ? `${label} is low everywhere`
      : panels.length === 1
        ? `${label} is low`
        : `${label} is low on ${named(low)}`;
  // Zones that no guideline reads, such as those tested otherwise, are not in what is said of the others.
  const where = standing.length < panels.length ? ` on ${named(standing.map((s) => s.zone))}` : "";
  if (where !== "" && high.length > 0 && high.length < standing.length) {
    const within = standing.filter((s) => s.position === "within").map((s) => s.zone);
    return `${label} is in range on ${named(within)} and above it on ${named(high)}`;
  }
  if (high.length === standing.length) return `${label} is above the range to stay in${where}`;
  return high.length > 0 ? `${label} is in range${where} or, on ${named(high)}, above it` : `${label} is in the range to stay in${where}`;
};

/** What is so of this figure alone: its breaks, and whose noise. */
export const caption = (panels: readonly TrendPanel[]): string => {
  const reasons = [...new Set(panels.flatMap((p) => p.breaks.map((b) => b.because)))];
  const parts = [
    ...reasons.map((because) => `The double rule marks where ${because}: values on its two sides are not comparable and are not joined.`),
    ...panels
      .filter((p) => p.apart.length > 0)
      .map((p) => `On ${p.zone.name}, ${list(p.apart)}: taken otherwise than the line, and not joined to it.`),
    noiseCaption(panels),
    panels.some((p) => p.verdict.directed) &&
      "Of twenty zones where nothing changes, up to one is called rising or falling by chance alone.",
  ];
  return parts.filter(Boolean).join(" ");
};

const sentences = (...parts: readonly (string | false)[]): string => parts.filter(Boolean).join(" ");

/** What is so of every figure of a page, told once, as far as they hold it. */
export const trendNotes = (panels: readonly TrendPanel[]): string[] => [
  ...(panels.length === 0
    ? []
    : [
        sentences(
          "One panel a zone, on shared axes. A line joins only results that may be compared: same test, method, depth and, for pH and potassium, season.",
          panels.some((p) => p.others.length > 0) && "A cross is a reading of the other season.",
          panels.some((p) => p.segments.some((s) => s.points.some((q) => q.bags.length > 0))) &&
            "Open marks are duplicate bags of one day; the line runs through their mean.",
          panels.some((p) => p.segments.some((s) => s.bands.length > 0)) &&
            "The ground shows the classes of the guideline for the next crop, where it reads the method.",
        ),
      ]),
  `Noise${panels.length === 0 ? "" : ", the shade around a line,"} is how far single samples of an unchanged soil stray, 19 times in 20. A change is called one only where it is more than two samples of one soil differ by themselves.`,
  "What moves all bags of one day alike, such as a laboratory that is off or a dry year, is not in the noise: the page of each sampling looks for it.",
];

const noiseCaption = (panels: readonly TrendPanel[]): string | false => {
  const sources = [...new Set(panels.flatMap((p) => p.noise))];
  return sources.length > 0 && `Noise by ${list(sources)}.`;
};
