import { text } from "./html.ts";

/** What of a farm has a name: enough of it to find the names. */
interface Named {
  readonly name: string;
}
interface NamedFarm extends Named {
  readonly fields: readonly (Named & {
    readonly zones: readonly (Named & { readonly soil: { readonly name?: string | undefined } })[];
    readonly formerZones: readonly Named[];
    readonly samplings: readonly { readonly lab: Named }[];
  })[];
  readonly products: ReadonlyMap<string, { readonly product: Named }>;
}

/** Hebrew, Arabic and their kin. */
const rightToLeft = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]/;

/** The farm's names that are written from right to left. */
export const rightToLeftNames = (farm: NamedFarm): string[] => [
  ...new Set(
    [
      farm.name,
      ...farm.fields.flatMap((f) => [
        f.name,
        ...[...f.zones, ...f.formerZones].map((z) => z.name),
        ...f.zones.flatMap((z) => z.soil.name ?? []),
        ...f.samplings.map((s) => s.lab.name),
      ]),
      ...[...farm.products.values()].map((p) => p.product.name),
    ].filter((name) => rightToLeft.test(name)),
  ),
];

/** Scripts and styles whole, tags, and between them text. */
const parts = /<(script|style)\b[\s\S]*?<\/\1>|<(?:"[^"]*"|'[^']*'|[^'">])*>|[^<]+/g;
const escaped = (name: string): string => name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/**
 * A page with such names set apart (Unicode Standard Annex 9): within English, the number after a name would else be drawn before
 * it, and a rate stand beside another zone. Signs and not a tag, since a drawing and a title hold no tags.
 */
export const isolated = (html: string, names: readonly string[]): string => {
  if (names.length === 0) return html;
  const written = names.flatMap((name) => [name, text(name), text(name).replaceAll("&amp;", "&#38;").replaceAll("&quot;", "&#34;")]);
  const any = new RegExp(
    [...new Set(written)]
      .sort((a, b) => b.length - a.length)
      .map(escaped)
      .join("|"),
    "g",
  );
  return html.replace(parts, (part) => (part.startsWith("<") ? part : part.replace(any, "\u2068$&\u2069")));
};
