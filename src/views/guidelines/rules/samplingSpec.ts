import { samplingDepthLabel, spanLabel } from "../../../interpretation/rules/samplingParts.ts";
import type { SamplingSpecRule } from "../../../interpretation/rules/samplingSpec.ts";
import { samplingBounds } from "../../../interpretation/rules/samplingSpec.ts";
import { samplingWhenLabel } from "../../../interpretation/rules/samplingWhen.ts";
import { plain } from "../../../interpretation/show.ts";
import { purposes } from "../../../interpretation/vocabulary.ts";
import { capital } from "../../words.ts";
import type { RuleParts } from "./ruleParts.ts";

const areaWords = (unit: "acre" | "ha"): string => (unit === "acre" ? "acres" : "ha");

/** Of nitrate or of mineral nitrogen: the rule's own words tell which. */
export const sampledFor = ({ purpose }: SamplingSpecRule): string => (purpose === "nitrate" ? "nitrogen test" : purposes[purpose].label);

/** The page of a guideline: what it asks of a sampling, as one table, and one more where it counts composites by area. */
export const samplingSpecView = (s: SamplingSpecRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => {
  const place = (when: Parameters<typeof samplingWhenLabel>[0]): string => samplingWhenLabel(when) || "everywhere";
  const rows = [
    ...(s.cores ?? []).map((c) => r(["cores in one composite", place(c.when), spanLabel(c)], c)),
    ...(s.depths ?? []).map((d) => r(["depth", place(d.when), samplingDepthLabel(d)], d)),
    ...(s.areas ?? []).map((a) =>
      r(
        [
          "largest area of one composite",
          place(a.when),
          `${spanLabel(a.least === undefined ? { least: a.most, most: a.most } : a)} ${areaWords(a.unit)}`,
        ],
        a,
      ),
    ),
    ...(s.years ?? []).map((y) => r(["years between two samplings", place(y.when), spanLabel(y)], y)),
    ...(s.sameCrop ? [r(["crop before", "everywhere", "the same each time"], s.sameCrop)] : []),
    ...(s.bounds ?? []).map((l) =>
      r(
        [
          samplingBounds[l.what].label.toLowerCase(),
          l.otherwise ? `otherwise ${l.otherwise}` : "everywhere",
          `${plain(l.value)} ${samplingBounds[l.what].unit}`,
        ],
        l,
      ),
    ),
    ...(s.distances ?? []).map((d) => r(["distance to keep", `from ${d.from}`, `${plain(d.value)} ${d.unit}`], d)),
    ...(s.statements ?? []).map((each) => r([each.about, "everywhere", each.statement], each)),
  ];
  return {
    title: `How to sample: ${sampledFor(s)}`,
    says: "A plan for sampling takes its numbers from here. What the publication is silent on is left out.",
    tables: [
      ...(rows.length > 0 ? [{ caption: capital(sampledFor(s)), head: ["What", "Where", "Value"], numeric: [], rows }] : []),
      ...(s.composites ?? []).map((t) => ({
        caption: `Composites by the area of the field, ${place(t.when)}`,
        head: [`Area, ${areaWords(t.unit)}`, "Composites"],
        numeric: [1],
        rows: t.rows.map(([from, to, n]) => r([`${plain(from)} to ${plain(to)}`, plain(n)], t)),
      })),
    ],
  };
};
