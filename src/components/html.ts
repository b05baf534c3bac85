/** Text between tags: what HTML would read as its own is written as an entity, as Astro writes it. */
export const text = (value: string | number): string =>
  typeof value === "number" || !special.test(value) ? String(value) : value.replace(/[&<>'"]/g, (sign) => entities[sign]!);

/** A value between the double quotes of an attribute. */
export const attribute = (value: string): string => (special.test(value) ? value.replaceAll("&", "&#38;").replaceAll('"', "&#34;") : value);

const special = /[&<>'"]/;
const entities: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", "'": "&#39;", '"': "&quot;" };
