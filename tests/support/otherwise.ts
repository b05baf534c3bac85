import { parse, stringify } from "yaml";
import type { AudienceRecord, WithheldPart } from "../../src/records/schemas/audience.ts";

type Json = string | number | boolean | null | Json[] | { [key: string]: Json };
type Files = Readonly<Record<string, string>>;
type Reader = Pick<AudienceRecord, "fields" | "tenure" | "leaveOut" | "seasons">;
type Years = NonNullable<Reader["seasons"]>;
type Change = (at: string, value: Json) => Json | undefined;

/** Every hidden value is far less or far more than it was; or what may be absent is. */
export const ways = ["less", "more", "gone"] as const;
export type Way = (typeof ways)[number];

/** Where what is left out stands: `season:crops/0/yield`. Of products, those that hold nitrogen are marked. */
const hidden: Record<WithheldPart, RegExp> = {
  costs: /^(farm:pricesOn|farm:products\/[^/]+\/price|labs:packages\/[^/]+\/fee)$/,
  yields: /^(field:plan\/\d+\/yieldGoal|seasons:crops\/\d+\/(yield|moisture))$/,
  notes: /^((farm:about|labs:note|farm:products\/[^/]+\/note|field:(note|tenure\/from|boundary\/note|targetPh\/reason|avoid\/\d+\/what)|samplings:(note|handling\/tool|(composites|corrections)\/\d+\/(note|reason))|seasons:(note|\w+\/\d+\/note)))$/,
  positions: /^farm:address$/,
  nitrogen: /^(samplings:(nitrate|measured\/(nitrateN|mineralN)|composites\/\d+\/results\/(nitrateN|mineralN))|seasons:crops\/\d+\/stand|field:plan\/\d+\/starter|farm:products\/\+N[^/]*\/(name|\w+\/(N|ammoniumN)))$/,
};
/** What a reader is told the presence of, or no record may lack. */
const needed = /yield(Goal)?$|reason$|what$|name$|\/N$/;
const days = /(pricesOn|since|until|walked|planted|harvested|receivedOn|reportedOn)$/;
const amounts = /(results\/\w+|rate|yield)$/;

const object = (value: Json | undefined): Record<string, Json> => (typeof value === "object" && value !== null && !Array.isArray(value) ? value : {});
const list = (value: Json | undefined): Json[] => (Array.isArray(value) ? value : []);
const word = (value: Json | undefined): string => (typeof value === "string" ? value : "");
const beyond = (day: Json | undefined, { from = -Infinity, to = Infinity }: Years): boolean => (typeof day === "string" || typeof day === "number") && (Number(String(day).slice(0, 4)) < from || Number(String(day).slice(0, 4)) > to);

/** The value with each part changed; `undefined` takes one out. What is changed is not looked into. */
const rewrite = (value: Json, at: string, change: Change): Json | undefined => {
  const changed = change(at, value);
  if (changed !== value || typeof value !== "object" || value === null) return changed;
  const below = (key: string | number): string => `${at}${at.endsWith(":") ? "" : "/"}${key}`;
  if (Array.isArray(value)) return value.map((each, i) => rewrite(each, below(i), change)).filter((each) => each !== undefined);
  return Object.fromEntries(Object.entries(value).flatMap(([key, each]) => ((is) => (is === undefined ? [] : [[key, is]]))(rewrite(each, below(key), change))));
};

/** Another value of the same kind: words with a word before them, days on another day, numbers multiplied. */
const another = (value: Json, way: Way): Json => {
  if (typeof value === "number") return Number((value * (way === "less" ? 0.31 : 1.7)).toFixed(4));
  if (typeof value === "string") return /^\d{4}-\d\d-\d\d$/.test(value) ? `${value.slice(0, 8)}09` : `another ${value}`;
  return rewrite(value, ":", (_, each) => (typeof each === "number" ? another(each, way) : each))!;
};

/** Does the record say this of other years than those shown? */
const ofOtherYears = (at: string, value: Json, years: Years, zones: Record<string, Json>): boolean => {
  const { date, season, since, until } = object(value);
  const other = (id: Json): boolean => beyond(object(zones[word(id)])["since"], { to: years.to }) || beyond(object(zones[word(id)])["until"], { from: years.from });
  if (days.test(at)) return beyond(value, years);
  if (/:zones\/\w+$/.test(at)) return beyond(since, { to: years.to }) || beyond(until, { from: years.from });
  const [, named, of] = /:zones\/(\w+)\/formerly(\/\d+)?$/.exec(at) ?? [];
  if (named !== undefined) return of === undefined ? beyond(object(zones[named])["since"], years) : other(value);
  return /(applications|corrections|plan)\/\d+$/.test(at) && beyond(date ?? season, years);
};

/** Results as they are after the corrections of other years, or after all of them. */
const corrected = (sampling: Json, all: boolean, years: Years | undefined): Json => {
  const late = list(object(sampling)["corrections"]).map(object).filter((c) => all || (years !== undefined && beyond(c["date"], years)));
  const now = new Map(late.map((c) => [`${word(c["composite"])} ${word(c["analyte"])}`, c["now"]!]));
  const bag = (b: Record<string, Json>): Json => ({ ...b, results: Object.fromEntries(Object.entries(object(b["results"])).map(([analyte, was]) => [analyte, now.get(`${word(b["label"])} ${analyte}`) ?? was])) });
  return { ...object(sampling), composites: list(object(sampling)["composites"]).map((b) => bag(object(b))), ...(all && { corrections: [] }) };
};

/**
 * The same farm but for what a reader is not shown: another farm, which he must not be able to tell from the first. Files are written anew,
 * a key a line.
 */
export const otherwise = (files: Files, reader: Reader, way: Way): Record<string, string> => {
  const { leaveOut, seasons: years } = reader;
  const farm = object(parse(files["farm.yaml"]!) as Json);
  const products = object(farm["products"]);
  const fieldOf = (id: string): Record<string, Json> => object(parse(files[`fields/${id}/field.yaml`]!) as Json);
  const isShown = (id: string): boolean => (reader.fields ? reader.fields.includes(id) : reader.tenure === undefined || object(fieldOf(id)["tenure"])["kind"] === reader.tenure);
  const holds = (id: string, nutrient: string): boolean => ["analysis", "perTon", "perThousandGal"].some((of) => Number(object(object(products[id])[of])[nutrient] ?? 0) > 0);
  const nitrogenAlone = (id: string): boolean => holds(id, "N") && !["P2O5", "K2O", "P", "K"].some((n) => holds(id, n));
  const marked = (at: string): string => at.replace(/products\/([^/]+)/, (all, id: string) => (holds(id, "N") ? `products/+N${id}` : all));
  const altered = (at: string, value: Json): Json | undefined => {
    if (way === "gone" && !needed.test(at)) return undefined;
    // The dearest becomes the cheapest, so that another product would be chosen.
    const turned: Change = (_, each) => (typeof each === "number" ? Number((10_000 / each).toFixed(4)) : each);
    return way === "less" && hidden.costs.test(at) && typeof value !== "string" ? rewrite(value, ":", turned) : another(value, way);
  };
  const scaled: Change = (at, value) => (at === "field:avoid" ? undefined : amounts.test(at) ? another(value, way) : value);
  const change = (zones: Record<string, Json>): Change => (at, value) => {
    if (at === "farm:audiences" || (at === "field:avoid" && leaveOut.includes("positions"))) return undefined;
    if (years && ofOtherYears(at, value, years, zones)) return /:zones/.test(at) && way !== "gone" ? value : undefined;
    if (leaveOut.some((part) => hidden[part].test(marked(at)))) return altered(at, value);
    const spread = /applications\/\d+$/.test(at) && leaveOut.includes("nitrogen") && nitrogenAlone(word(object(value)["product"]));
    return spread ? (way === "gone" ? undefined : rewrite(value, at, scaled)) : value;
  };
  const result: Record<string, string> = {};
  for (const [file, text] of Object.entries(files)) {
    const [top = "", id = "", folder = "", name = ""] = file.split("/");
    const inField = top === "fields";
    const zones = inField ? object(fieldOf(id)["zones"]) : {};
    if (file.endsWith(".geojson")) {
      if (result[`fields/${id}/field.yaml`] === undefined) continue;
      const drawn = object(object(parse(result[`fields/${id}/field.yaml`]!) as Json)["zones"]);
      const shapes = list(object(JSON.parse(text) as Json)["features"]).filter((f) => Object.hasOwn(drawn, word(object(object(f)["properties"])["zone"])));
      // Every place lies elsewhere, and farther so the farther north: a shear keeps areas.
      const sheared: Change = (_, value) => (list(value).length === 2 && list(value).every((n) => typeof n === "number") ? [Number((Number(list(value)[0]) + 3 + (Number(list(value)[1]) - 44) / 7).toFixed(9)), list(value)[1]!] : value);
      const moved = leaveOut.includes("positions") ? rewrite(shapes, ":", sheared) : shapes;
      result[file] = JSON.stringify({ type: "FeatureCollection", features: moved });
      continue;
    }
    const record = parse(text) as Json;
    const kind = inField ? folder.replace(".yaml", "") : file === "farm.yaml" ? "farm" : top;
    const unseen = inField && (!isShown(id) || (years !== undefined && name !== "" && beyond(name, years)) || (leaveOut.includes("nitrogen") && object(record)["purpose"] === "nitrate"));
    if (unseen && way === "gone") continue;
    const ready = kind === "samplings" ? corrected(record, unseen, years) : record;
    result[file] = stringify(unseen ? rewrite(ready, `${kind}:`, scaled) : rewrite(ready, `${kind}:`, change(zones)), { lineWidth: 0 });
  }
  const named = (file: string): boolean => Object.entries(result).some(([other, text]) => other !== file && new RegExp(`\\b${file.replace(/^.*\/|\.yaml$/g, "")}\\b`).test(text));
  return Object.fromEntries(Object.entries(result).filter(([file]) => way !== "gone" || !/^(labs|guidelines)\//.test(file) || named(file)));
};
