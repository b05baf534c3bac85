import type { Farm, Field, Sampling } from "../../records/model.ts";
import { referencesView } from "../guidelines/referencesView.ts";
import { samplingQuality } from "../advice/samplingQuality.ts";
import type { EvidenceMark, Link } from "../steps.ts";
import { evidenceMark, sourceLink } from "../steps.ts";
import { capital, count, list, numberWord } from "../words.ts";
import type { FindingId, Severity } from "../../interpretation/sampling/event/finding.ts";

/** One line on how an event was taken. */
export interface FindingRow {
  readonly id: FindingId;
  readonly what: string;
  readonly verdict: string;
  /** Set apart on the page. */
  readonly warns: boolean;
  readonly words: string;
  readonly source: Link | undefined;
  readonly evidence: EvidenceMark | undefined;
}

export interface EventQualityView {
  readonly says: string;
  readonly rows: readonly FindingRow[];
}

const names: Record<FindingId, string> = {
  cores: "Cores",
  depth: "Depth",
  depthBefore: "Depth, against before",
  season: "Season",
  cropBefore: "Crop before",
  moisture: "Moisture of the soil",
  pail: "Pail",
  bag: "Bag",
  way: "Way to the laboratory",
  laboratory: "Laboratory",
  methods: "Methods",
  zones: "Zones",
  area: "Ground for each bag",
};

const lists = new WeakMap<Farm, ReadonlySet<string>>();
const listed = (farm: Farm): ReadonlySet<string> => {
  let ids = lists.get(farm);
  if (!ids) lists.set(farm, (ids = new Set(referencesView(farm).map((r) => r.reference.id))));
  return ids;
};

const isBad = (severity: Severity): boolean => severity === "read with care" || severity === "not fit for the purpose";

/** How well an event was taken, as its page tells it; the worst first in the sentence, the rows in order of the work. */
export const eventQualityView = (farm: Farm, field: Field, sampling: Sampling): EventQualityView => {
  const findings = samplingQuality(field, sampling);
  const rows = findings.map((f): FindingRow => {
    const link = sourceLink(f.source, farm.references);
    return {
      id: f.id,
      what: names[f.id],
      verdict: f.severity,
      warns: isBad(f.severity),
      words: capital(f.words),
      // A publication that no guideline of this site uses has no line on the page of references to lead to.
      source: link?.anchor !== undefined && !listed(farm).has(link.anchor) ? { text: link.text } : link,
      evidence: evidenceMark(f.evidence),
    };
  });
  const of = (severity: Severity): string[] =>
    findings.filter((f) => f.severity === severity).map((f) => names[f.id].charAt(0).toLowerCase() + names[f.id].slice(1));
  const parts = [
    of("not fit for the purpose").length > 0 && `Not fit for the purpose: ${list(of("not fit for the purpose"))}.`,
    of("read with care").length > 0 && `Read with care: ${list(of("read with care"))}.`,
    of("not recorded").length > 0 && `Not recorded, and so not judged: ${list(of("not recorded"))}.`,
  ].filter((part) => part !== false);
  const fine = of("fine").length;
  const rest =
    parts.length === 0
      ? `Nothing in how it was taken speaks against it; ${count(fine, "thing was", "things were")} looked at.`
      : fine > 0 && `The other ${numberWord(fine)} ${fine === 1 ? "is" : "are"} fine.`;
  return { says: [...parts, rest].filter(Boolean).join(" "), rows };
};
