import type { Guideline } from "../../interpretation/guideline.ts";

/** The guidelines that may be named, a line or two each: id, then title, region and edition, and what has taken its place. */
export const guidelineList = (guidelines: Iterable<Guideline>): string =>
  [...guidelines]
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map((g) => {
      const about = [g.title, g.region, g.edition === undefined ? undefined : String(g.edition)].filter(Boolean).join(", ");
      return `${g.id}\n    ${about}${g.status === "superseded" ? `; superseded${g.supersededBy ? ` by ${g.supersededBy}` : ""}` : ""}\n`;
    })
    .join("");
