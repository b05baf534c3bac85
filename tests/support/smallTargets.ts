/**
 * The targets of a page that are smaller than 24 by 24 CSS px and that no exception of WCAG 2.2, success criterion 2.5.8 (W3C Recommendation
 * of 5 October 2023), lets pass. Runs in a browser, and is handed over as it stands. Inline: a link within a sentence or a line of
 * other text. Spacing: a circle of 24 px around its middle touches no other target, nor the circle of another small one.
 */
export const smallTargets = (): string[] => {
  const least = 24;
  interface Target {
    readonly at: HTMLElement;
    readonly box: DOMRect;
    readonly small: boolean;
  }
  const boxOf = (e: HTMLElement): DOMRect => {
    // A radio button that is drawn as its label is pressed there.
    const label = e instanceof HTMLInputElement && (e.type === "radio" || e.type === "checkbox") ? e.labels?.[0] : undefined;
    return (label ?? e).getBoundingClientRect();
  };
  const targets = [...document.querySelectorAll<HTMLElement>("a[href], button, summary, input, select")]
    .filter((e) => e.checkVisibility({ visibilityProperty: true }) && !e.matches(".skip"))
    .map((at): Target => ({ at, box: boxOf(at), small: boxOf(at).width < least - 0.5 || boxOf(at).height < least - 0.5 }));
  const inline = ({ at }: Target): boolean => {
    if (getComputedStyle(at).display !== "inline") return false;
    const around = at.parentElement!.closest("p, li, td, th, dd, dt, caption, figcaption, summary, h1, h2, h3, h4, div")!;
    const own = [...around.querySelectorAll("a")].map((a) => a.textContent).join("");
    return around.textContent.replace(/\s+/g, "").length > own.replace(/\s+/g, "").length;
  };
  const middle = ({ box }: Target): [number, number] => [box.x + box.width / 2, box.y + box.height / 2];
  const crowded = (target: Target): boolean => {
    const [x, y] = middle(target);
    return targets.some((other) => {
      if (other === target || other.at.contains(target.at) || target.at.contains(other.at)) return false;
      if (other.small) return Math.hypot(middle(other)[0] - x, middle(other)[1] - y) < least;
      const nearest = [Math.max(other.box.left, Math.min(x, other.box.right)), Math.max(other.box.top, Math.min(y, other.box.bottom))] as const;
      return Math.hypot(nearest[0] - x, nearest[1] - y) < least / 2;
    });
  };
  return targets.filter((t) => t.small && !inline(t) && crowded(t)).map(({ at, box }) => `${at.tagName.toLowerCase()} "${(at.textContent || at.id).trim().slice(0, 40)}" in ${at.closest("section, nav, footer")?.id ?? "?"}, ${Math.round(box.width)} by ${Math.round(box.height)}`);
};
