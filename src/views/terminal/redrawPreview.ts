import type { Area } from "../../exchange/geometry.ts";
import { polygonsOf, squareMeters } from "../../exchange/geometry.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { RedrawAsked, Redrawn, SoilDiffering, ZoneBegun } from "../../records/zones/redraw.ts";
import { everyTwo } from "../alike/zonesInPairs.ts";
import { pairOf } from "../alike/zonesCompared.ts";
import { area, areaUnit, inUnitsOf } from "../units.ts";
import { count, list } from "../words.ts";

/** What a person reads before zones are drawn anew: which end, which begin, whether they had proved alike, and what is left to write. */
export const redrawPreview = (farm: Farm, field: Field, { ended, since }: RedrawAsked, { begun, differing }: Redrawn): string => {
  const shown = inUnitsOf(farm, field);
  const size = (polygon: Area | undefined): string =>
    polygon ? `  ${area(squareMeters(polygon), shown.units)} ${areaUnit(shown.units)}` : "";
  const width = Math.max(...[...ended, ...begun].map((z) => z.name.length));
  const line = (what: string, zone: ZoneBegun): string =>
    `  ${what.padEnd(6)}  ${zone.letter.padEnd(2)}  ${zone.name.padEnd(width)}${size(zone.area)}`.trimEnd();
  return [
    `${field.name}, from ${since} on`,
    ...ended.map((zone) => line("ends", zone)),
    ...begun.map((zone) => line("begins", zone)),
    ...begun.flatMap(inPieces),
    ...(ended.some((zone) => zone.area) ? withoutOutline(begun) : []),
    ...(begun.length === 1 ? alikeWords(shown, field, ended) : []),
    ...differing.map((fact) => differingWords(fact, ended)),
    `Nothing is advised for ${list(begun.map((zone) => zone.name))} before ${begun.length === 1 ? "it is" : "they are"} sampled: the day of the next sampling is a good one to begin.`,
    ...(since > farm.today
      ? [
          `The newest day in the records is ${farm.today}: until something of ${since} or later is recorded, pages show the old zones; --today ${since} shows the new ones.`,
        ]
      : []),
  ].join("\n");
};

/** Whether zones that become one had proved alike: what the field's pages say of every two of them. */
const alikeWords = (farm: Farm, field: Field, ended: RedrawAsked["ended"]): string[] =>
  everyTwo(ended).map((pair) => pairOf(farm, field, pair).words.says);

const inPieces = ({ name, area }: ZoneBegun): string[] => {
  const pieces = area ? polygonsOf(area).length : 1;
  return pieces > 1
    ? [`${name} is in ${count(pieces, "piece")}, since the outlines do not meet; npm run zones brings in one of its own.`]
    : [];
};

const withoutOutline = (begun: readonly ZoneBegun[]): string[] => {
  const names = begun.flatMap((zone) => (zone.area ? [] : [zone.name]));
  return names.length > 0
    ? [
        `${list(names)} ${names.length === 1 ? "has no outline" : "have no outlines"} yet: npm run zones brings ${names.length === 1 ? "it" : "them"} in.`,
      ]
    : [];
};

const differingWords = ({ fact, values, whole }: SoilDiffering, ended: RedrawAsked["ended"]): string => {
  const each = list(values.map((value, i) => `${value ?? "not stated"} on ${ended[i]!.name}`));
  const holds = whole === undefined ? "is left out" : `of the whole field, ${whole}, holds`;
  return `soil.${fact} differs (${each}) and ${holds}: write in field.yaml what is so of the new zone.`;
};
