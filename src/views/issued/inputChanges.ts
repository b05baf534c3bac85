import type { Guideline } from "../../interpretation/guideline.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { measurementLabel, methodLabel } from "../../interpretation/measurement.ts";
import { factLabel } from "../../interpretation/rules/conditions.ts";
import type { NitrateFact } from "../../interpretation/rules/nitrateFacts.ts";
import { factLabel as nitrogenFactLabel, nitrateNumbers, nitrateWords } from "../../interpretation/rules/nitrateFacts.ts";
import { plain } from "../../interpretation/show.ts";
import type { AnalyteId, CropId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, crops } from "../../interpretation/vocabulary.ts";
import type { FrozenProduct } from "../../records/schemas/recommendation.ts";
import type { FrozenInputs } from "./frozenInputs.ts";
import { list, longDate } from "../words.ts";
import { listedPrice } from "../units.ts";
import type { NumericFact } from "../../interpretation/rules/facts.ts";
import { numericFacts } from "../../interpretation/rules/facts.ts";

/** All that one zone's advice is worked out from. */
export interface Basis {
  readonly inputs: FrozenInputs;
  readonly products: Readonly<Record<string, FrozenProduct>>;
  readonly packs: readonly Guideline[];
}

/** One thing that is otherwise in the records now, and the basis with nothing but that changed. */
export interface Change {
  readonly words: string;
  readonly apply: (then: Basis) => Basis;
}

const places = ["source", "origin", "origins", "record"];

/** A value without the places it stands at, its keys in one order: a line that moved down changes nothing. */
const bare = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(bare);
  if (typeof value !== "object" || value === null) return value;
  const kept = Object.entries(value).filter(([key, each]) => !places.includes(key) && each !== undefined);
  return kept.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, each]) => [key, bare(each)]);
};

const differ = (a: unknown, b: unknown): boolean => JSON.stringify(bare(a)) !== JSON.stringify(bare(b));

const withInputs =
  (changed: (then: FrozenInputs) => Partial<FrozenInputs>): Change["apply"] =>
  (then) => ({ ...then, inputs: { ...then.inputs, ...changed(then.inputs) } });

const testKey = (m: Measurement): string => `${m.analyte} ${m.method} ${m.finish ?? ""} ${m.preparation ?? ""}`;

/** Facts of the place that are read off a result, where the laboratory measured it. */
const readOff: Partial<Record<AnalyteId, readonly NumericFact[]>> = {
  pH: ["soilPh"],
  Na: ["sodium", "sodiumByVolume"],
  cec: ["cec"],
  organicMatter: ["organicMatter"],
};

const resultWords = (was: Measurement | undefined, is: Measurement | undefined): string => {
  const m = (is ?? was)!;
  const test = `${analyteInSentence(m.analyte)} (${methodLabel(m)})`;
  if (!was) return `a result was added: ${test}, ${measurementLabel(m)}`;
  if (!is) return `a result is no longer in the records: ${test}, ${measurementLabel(m)}`;
  const corrected = [is, ...(is.bags ?? [])].find((each) => each.correction)?.correction;
  const values = `from ${measurementLabel(was)} to ${measurementLabel(is)}`;
  if (corrected)
    return `the result of ${analyteInSentence(m.analyte)} was corrected on ${longDate(corrected.date)} ${values}: ${corrected.reason}`;
  return was.value === is.value
    ? `how ${test} was sampled or measured is otherwise in the records now`
    : `the result of ${test} was changed in the records ${values}`;
};

const resultChanges = (then: FrozenInputs, now: FrozenInputs): (Change & { readonly analyte: AnalyteId })[] =>
  [...new Set([...then.results, ...now.results].map(testKey))].flatMap((key) => {
    const was = then.results.find((m) => testKey(m) === key);
    const is = now.results.find((m) => testKey(m) === key);
    if (!differ(was, is)) return [];
    const { analyte } = (is ?? was)!;
    const facts: NumericFact[] = ["calciumSaturation", ...(readOff[analyte] ?? [])];
    const apply = withInputs((inputs) => ({
      results: [...inputs.results.flatMap((m) => (testKey(m) === key ? (is ?? []) : [m])), ...(was || !is ? [] : [is])],
      soil: {
        ...inputs.soil,
        ...Object.fromEntries(facts.map((f) => [f, now.soil[f]])),
        origins: { ...inputs.soil.origins, ...Object.fromEntries(facts.map((f) => [f, now.soil.origins?.[f]])) },
      },
    }));
    return [{ analyte, words: resultWords(was, is), apply }];
  });

const soilLabels: Record<string, string> = {
  texture: "the soil texture",
  soilCategory: "the soil category",
  soilClass: "the soil class",
  rotation: "the rotation",
};
const soilLabel = (fact: string): string =>
  soilLabels[fact] ??
  ((numericFacts as readonly string[]).includes(fact) ? `the fact "${factLabel(fact as NumericFact)}"` : `the fact "${fact}"`);
const said = (value: unknown): string =>
  value === undefined
    ? "not recorded"
    : typeof value === "number"
      ? plain(value, 2)
      : typeof value === "string"
        ? value
        : Array.isArray(value)
          ? list(value.map((each) => crops[each as CropId].label))
          : "otherwise";

const soilChanges = (then: FrozenInputs, now: FrozenInputs, changed: ReadonlySet<AnalyteId>): Change[] =>
  [...new Set([...Object.keys(then.soil), ...Object.keys(now.soil)])].flatMap((fact): Change[] => {
    const [was, is] = [then.soil, now.soil].map((soil) => (soil as Record<string, unknown>)[fact]);
    const fromResult =
      [...changed].some((analyte) => readOff[analyte]?.some((f) => f === fact)) || (fact === "calciumSaturation" && changed.size > 0);
    if (fact === "origins" || fromResult || !differ(was, is)) return [];
    return [
      {
        words: `${soilLabel(fact)} was ${said(was)} and is ${said(is)} now`,
        apply: withInputs((inputs) => ({
          soil: { ...inputs.soil, [fact]: is, origins: { ...inputs.soil.origins, [fact]: now.soil.origins?.[fact as NumericFact] } },
        })),
      },
    ];
  });

const cropSaid = (crop: FrozenInputs["crop"]): string => {
  if (!crop) return "no crop";
  const goal = crop.yieldGoal && `, ${plain(crop.yieldGoal.value)} ${crop.yieldGoal.unit} ${crop.planned ? "as the goal" : "as harvested"}`;
  return `${crops[crop.crop].label} ${crop.season}${goal ?? ""}${crop.straw ? `, straw ${crop.straw}` : ""}${crop.starter ? ", with a starter" : ""}`;
};

const cropChange = (then: FrozenInputs, now: FrozenInputs): Change[] => {
  const changed = differ({ ...then.crop, planned: undefined }, { ...now.crop, planned: undefined });
  return changed
    ? [
        {
          words: `the crop was planned as ${cropSaid(then.crop)}, and the records have ${cropSaid(now.crop)} now`,
          apply: withInputs(() => ({ crop: now.crop })),
        },
      ]
    : [];
};

const settingLabels: Record<string, string> = {
  own: "the target pH set for the field",
  depth: "the depth that lime is worked into",
  incorporated: "the tillage of the field",
};

const settingChanges = (then: FrozenInputs, now: FrozenInputs): Change[] =>
  [...new Set([...Object.keys(then.settings), ...Object.keys(now.settings)])].flatMap((key): Change[] => {
    const [was, is] = [then.settings, now.settings].map((s) => (s as Record<string, unknown>)[key]);
    return differ(was, is)
      ? [
          {
            words: `${settingLabels[key] ?? `the setting "${key}"`} was changed in the records`,
            apply: withInputs((inputs) => ({ settings: { ...inputs.settings, [key]: is } })),
          },
        ]
      : [];
  });

const limeChange = (then: FrozenInputs, now: FrozenInputs): Change[] =>
  differ(then.limeBefore, now.limeBefore)
    ? [{ words: "the records hold other lime spread before the sampling", apply: withInputs(() => ({ limeBefore: now.limeBefore })) }]
    : [];

/** Nitrogen's inputs now, as advice was kept before total nitrogen was asked of manure, or manure of seasons that are not all recorded: what was not kept is no change of the records. */
const askedThen = (then: FrozenInputs["nitrogen"], now: FrozenInputs["nitrogen"]): FrozenInputs["nitrogen"] => {
  const kept = then?.question.manure;
  const manure = now?.question.manure?.map((m, i) => (kept?.[i]?.nitrogen === undefined ? { ...m, nitrogen: undefined } : m));
  const found = then?.question.manureFound && now?.question.manureFound;
  return now && { ...now, question: { ...now.question, manure, manureFound: found } };
};

const nitrogenChange = (then: FrozenInputs, now: FrozenInputs): Change[] => {
  const [before, after] = [then.nitrogen, askedThen(then.nitrogen, now.nitrogen)];
  if (!differ(before, after)) return [];
  const [was, is] = [before?.question, after?.question];
  const facts = Object.keys({ ...was?.history, ...is?.history }).filter((f) =>
    differ(was?.history[f as NitrateFact], is?.history[f as NitrateFact]),
  );
  const named = facts.map((f) => (f in nitrateNumbers || f in nitrateWords ? nitrogenFactLabel(f as NitrateFact) : f));
  if (differ(was?.measurements, is?.measurements)) named.unshift("the nitrate test");
  if (differ(was?.manure, is?.manure)) named.push("the manure spread");
  if (differ([then.nitrogen?.crop, was?.yieldGoal], [now.nitrogen?.crop, is?.yieldGoal])) named.push("the crop or its yield");
  return [
    {
      words: `what nitrogen is worked out from was changed in the records${named.length > 0 ? `: ${list(named)}` : ""}`,
      apply: withInputs(() => ({ nitrogen: now.nitrogen })),
    },
  ];
};

const priceSaid = ({ price }: FrozenProduct, currency: string): string =>
  price ? `${listedPrice(price.value, currency)} a ${price.per}` : "not recorded";

const productChanges = (then: Basis["products"], now: Basis["products"], currency: string): Change[] =>
  [...new Set([...Object.keys(then), ...Object.keys(now)])].flatMap((id): Change[] => {
    const [was, is] = [then[id], now[id]];
    const to =
      (changed: Partial<FrozenProduct>): Change["apply"] =>
      (basis) => ({ ...basis, products: { ...basis.products, [id]: { ...basis.products[id]!, ...changed } } });
    if (!was && is) return [{ words: `${is.name} was added to the farm's list`, apply: to(is) }];
    if (was && !is)
      return [
        {
          words: `${was.name} was taken off the farm's list`,
          apply: (basis) => ({ ...basis, products: Object.fromEntries(Object.entries(basis.products).filter(([key]) => key !== id)) }),
        },
      ];
    if (!was || !is) return [];
    return [
      ...(differ([was.price, was.pricePerTon], [is.price, is.pricePerTon])
        ? [
            {
              words: `the price of ${is.name} was ${priceSaid(was, currency)} and is ${priceSaid(is, currency)} now`,
              apply: to({ price: is.price, pricePerTon: is.pricePerTon }),
            },
          ]
        : []),
      ...(differ([was.kind, was.name, was.content], [is.kind, is.name, is.content])
        ? [
            {
              words: `what ${is.name} holds is otherwise in farm.yaml now`,
              apply: to({ kind: is.kind, name: is.name, content: is.content }),
            },
          ]
        : []),
    ];
  });

const packChange = (then: readonly Guideline[], now: readonly Guideline[]): Change[] => {
  const names = (packs: readonly Guideline[]): string => list(packs.map((p) => p.short));
  return then.map((p) => p.id).join() === now.map((p) => p.id).join()
    ? []
    : [{ words: `other guidelines are asked now: ${names(now)} in place of ${names(then)}`, apply: (basis) => ({ ...basis, packs: now }) }];
};

/** Everything in the records that is otherwise now than when the advice was issued, each change by itself. */
export const inputChanges = (then: Basis, now: Basis, currency: string): Change[] => {
  const results = resultChanges(then.inputs, now.inputs);
  const { inputs: was } = then;
  const { inputs: is } = now;
  return [
    ...results.map(({ words, apply }) => ({ words, apply })),
    ...soilChanges(was, is, new Set(results.map((r) => r.analyte))),
    ...cropChange(was, is),
    ...settingChanges(was, is),
    ...limeChange(was, is),
    ...nitrogenChange(was, is),
    ...productChanges(then.products, now.products, currency),
    ...packChange(then.packs, now.packs),
  ];
};
