import type { Measurement } from "../../interpretation/measurement.ts";
import { muckFrom } from "../../interpretation/rules/soilDoubts.ts";
import { plain } from "../../interpretation/show.ts";
import { median } from "../../interpretation/statistics/dated.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Field } from "../model.ts";
import type { Problems } from "../problem.ts";

/**
 * Results that soil keeps for years, and how far one may stand from every other of its zone: pH by a difference, which
 * liming seldom makes, the rest by a factor. A lost decimal point makes ten, figures changed about much. Nitrate, sulfur and
 * micronutrients come and go, and are not doubted.
 */
const steady: Partial<Record<AnalyteId, { readonly by: "difference" | "factor"; readonly most: number }>> = {
  pH: { by: "difference", most: 2 },
  P: { by: "factor", most: 5 },
  K: { by: "factor", most: 5 },
  Ca: { by: "factor", most: 5 },
  Mg: { by: "factor", most: 5 },
  organicMatter: { by: "factor", most: 5 },
  cec: { by: "factor", most: 5 },
};
/** Of fewer others the middle says too little. */
const fewestOthers = 2;

interface Found {
  readonly m: Measurement;
  readonly zone: string;
  readonly date: string;
  readonly path: string;
}

const isFar = (value: number, from: number, { by, most }: NonNullable<(typeof steady)[AnalyteId]>): boolean =>
  by === "difference" ? Math.abs(value - from) > most : value > from * most || value * most < from;

/** What lime or years of feeding do to poor ground is no slip: its first result stands far below all others, or it was limed since the last. */
const isRaised = ({ m, zone, date }: Found, others: readonly Found[], { seasons }: Field): boolean => {
  const before = others.filter((o) => o.date < date).map((o) => o.date);
  if (before.length === 0) return others.every((o) => o.date > date && o.m.value > m.value);
  const last = before.sort().at(-1)!;
  return (
    m.analyte === "pH" &&
    others.every((o) => o.m.value < m.value) &&
    seasons.some((s) => s.applications.some((a) => a.product.lime && a.zones.includes(zone) && a.date >= last && a.date <= date))
  );
};

/** A lost decimal point makes peat of a loam, and other advice of it. Told once a zone, since it is the field's file that may have to say so. */
const warnOfOrganic = (found: readonly Found[], { zones }: Field, problems: Problems): void => {
  const told = new Set(zones.flatMap(({ id, soil }) => (soil.texture === "muck" || soil.soilClass === "organic" ? [id] : [])));
  for (const { m, zone, path } of found) {
    if (m.analyte !== "organicMatter" || m.value <= muckFrom || told.has(zone)) continue;
    told.add(zone);
    problems.warn(
      m.origin.file,
      m.origin,
      path,
      `${plain(m.value)} % is the organic matter of muck or peat, and the soil is not said to be one; is it a slip? If not, write texture: muck in field.yaml`,
    );
  }
};

/** Warn of a result far from each other of its zone by the same method: of two numbers that one sheet gave another, the newer is not always the slip. */
export const warnOfResultSlips = (fields: readonly Field[], problems: Problems): void => {
  for (const field of fields) {
    const found = field.samplings.flatMap((s) =>
      s.composites.flatMap((c, i) =>
        c.measurements.flatMap((m): Found[] =>
          steady[m.analyte] && !m.qualifier ? [{ m, zone: c.zone, date: s.date, path: `composites[${i + 1}].results.${m.analyte}` }] : [],
        ),
      ),
    );
    const told = new Set<Measurement>();
    const alike = Map.groupBy(found, ({ m, zone }) =>
      [zone, m.analyte, m.unit, m.method, m.finish, m.preparation, m.depth.from, m.depth.to].join(),
    );
    for (const results of alike.values())
      for (const one of results) {
        const { m, path } = one;
        const others = results.filter((o) => o !== one);
        if (others.length < fewestOthers || !others.every((o) => isFar(m.value, o.m.value, steady[m.analyte]!))) continue;
        if (isRaised(one, others, field)) continue;
        const usual = median(others.map((o) => o.m.value).sort((a, b) => a - b));
        const unit = m.unit === "pH" ? "" : ` ${m.unit}`;
        told.add(m);
        problems.warn(
          m.origin.file,
          m.origin,
          path,
          `${plain(m.value)}${unit} is far from the other ${others.length} results of this zone, mostly ${plain(usual, 1)}${unit}; is it a slip?`,
        );
      }
    warnOfOrganic(
      found.filter(({ m }) => !told.has(m)),
      field,
      problems,
    );
  }
};
