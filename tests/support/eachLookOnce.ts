interface Node {
  readonly element: Element;
  readonly target: readonly string[];
}
interface Finding {
  readonly id: string;
  readonly nodes: readonly Node[];
}
interface Rule {
  readonly id: string;
  matches: (element: Element, ...more: unknown[]) => boolean;
}
interface Axe {
  readonly _audit: { readonly rules: readonly Rule[] };
  run(where: Document, options: object): Promise<Readonly<Record<"violations" | "incomplete", readonly Finding[]>>>;
}

/**
 * What axe finds by the rules asked for, with contrast asked of one text of each look: most of its time went by judging the cells of a
 * table one after the other. A look is all that contrast is reckoned from: a text's own color, size and weight, and the grounds of all
 * that it lies within. What may lie over something else than that (drawn, placed, floated or turned) is a look of its own, and so is what
 * is typed into or pressed. Where axe cannot judge the one, it is asked of every other of that look. Runs in a browser, and is handed over as it stands.
 */
export const eachLookOnce = async (runOnly: unknown): Promise<string[]> => {
  const { axe } = window as unknown as { axe: Axe };
  const grounds = new Map<Element, string>();
  let alone = 0;
  const groundOf = (e: Element): string => {
    const known = grounds.get(e);
    if (known !== undefined) return known;
    const s = getComputedStyle(e);
    const own = [s.backgroundColor, s.backgroundImage, s.opacity, s.mixBlendMode, s.filter].join();
    const placed = !["static", "relative"].includes(s.position) || s.transform !== "none" || s.float !== "none";
    const ground = `${e.parentElement ? groundOf(e.parentElement) : ""}${own === "rgba(0, 0, 0, 0),none,1,normal,none" ? "" : `/${own}`}${placed ? `/${++alone}` : ""}`;
    grounds.set(e, ground);
    return ground;
  };
  const looks = new Map<Element, string>();
  const lookOf = (e: Element): string => {
    const s = getComputedStyle(e);
    const look = looks.get(e) ?? [groundOf(e), s.color, s.fontSize, s.fontWeight, s.textShadow, e.matches("input, select, textarea, button, svg *") ? ++alone : ""].join(" ");
    looks.set(e, look);
    return look;
  };
  const contrast = axe._audit.rules.find(({ id }) => id === "color-contrast")!;
  const { matches } = contrast;
  const run = async (rules: unknown, wanted: (look: string, e: Element) => boolean): Promise<readonly [found: string[], unsure: readonly Element[]]> => {
    contrast.matches = (e, ...more) => wanted(lookOf(e), e) && matches.call(contrast, e, ...more) && (asked.set(lookOf(e), e), true);
    const { violations, incomplete } = await axe.run(document, { runOnly: rules, resultTypes: ["violations", "incomplete"], elementRef: true });
    contrast.matches = matches;
    const unsure = incomplete.filter(({ id }) => id === contrast.id).flatMap(({ nodes }) => nodes.map((n) => n.element));
    return [violations.map((f) => `${f.id}: ${f.nodes.map((n) => n.target.join(" ")).slice(0, 3).join(", ")}`), unsure];
  };
  const asked = new Map<string, Element>();
  const [found, unsure] = await run(runOnly, (look) => !asked.has(look));
  const first = new Set(asked.values());
  const left = new Set(unsure.map(lookOf));
  if (![...looks].some(([e, look]) => left.has(look) && !first.has(e))) return found;
  const [others] = await run({ type: "rule", values: [contrast.id] }, (look, e) => left.has(look) && !first.has(e));
  return [...found, ...others];
};
