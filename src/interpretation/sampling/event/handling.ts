import { daysBetween } from "../../days.ts";
import { counted } from "../../show.ts";
import type { Handling } from "../../rules/samplingParts.ts";
import type { Finding, SampledPlace, SamplingEvent } from "./finding.ts";
import { testedIn } from "./finding.ts";

/** A galvanized pail spoils the zinc test, and nothing else that is known. */
export const pailFinding = (event: SamplingEvent): Finding => {
  const base = { id: "pail", source: { reference: "iowa-pm287" }, evidence: "read" } as const;
  const zinc = testedIn(event).includes("Zn");
  if (event.pail === undefined) {
    const words = `What the cores were mixed in is not recorded${zinc ? "; a galvanized pail spoils the zinc test" : ""}.`;
    return { ...(zinc ? base : { id: "pail" as const }), analytes: [], severity: "not recorded", words };
  }
  if (event.pail === "plastic") return { ...base, analytes: [], severity: "fine", words: "Mixed in a plastic pail." };
  return zinc
    ? {
        ...base,
        analytes: ["Zn"],
        severity: "not fit for the purpose",
        words: "Mixed in a metal pail, and zinc was tested: galvanized metal spoils that test. The other results stand.",
        brief: "mixed in a metal pail",
      }
    : { ...base, analytes: [], severity: "fine", words: "Mixed in a metal pail; zinc, the test that it spoils, was not made." };
};

/** Dry, cool or frozen, nitrate stops changing. */
const kept = (event: SamplingEvent): boolean => event.keeping !== undefined && event.keeping !== "as taken";

/** A sealed plastic bag keeps moist soil warm, and nitrate rises in it. Asked of nitrate samplings only. */
export const bagFinding = (event: SamplingEvent): Finding | undefined => {
  if (event.purpose !== "nitrate" && event.bag === undefined) return undefined;
  const base = { id: "bag", analytes: [] } as const;
  if (event.purpose !== "nitrate") return { ...base, source: "common-practice", severity: "fine", words: `Sent in ${event.bag!} bags.` };
  const rest = { ...base, source: { reference: "uconn-nitrate-sampling" }, evidence: "read" } as const;
  if (event.bag === undefined)
    return { ...rest, severity: "not recorded", words: "The bag is not recorded; in a sealed plastic bag moist soil makes nitrate." };
  if (event.bag !== "plastic") return { ...rest, severity: "fine", words: `Sent in ${event.bag} bags.` };
  if (kept(event)) return { ...rest, severity: "fine", words: `Sent in plastic bags, ${event.keeping!}.` };
  const warm = event.keeping === undefined ? "whether they were cooled is not recorded" : "not cooled or dried";
  return {
    ...rest,
    analytes: ["nitrateN"],
    severity: "read with care",
    words: `Sent in plastic bags, and ${warm}: moist soil in a sealed bag makes nitrate.`,
    brief: "sent moist in plastic bags",
  };
};

interface Limit {
  readonly hours: number;
  readonly row: Handling["bounds"][number];
}

/** The tightest time that the guideline sets for a bag that is neither dried nor cooled. */
const limitOf = ({ zones }: SampledPlace): Limit | undefined => {
  const bounds = zones.flatMap((z) => (z.advice.handling.outcome.kind === "answer" ? z.advice.handling.outcome.value.bounds : []));
  const limits = bounds.flatMap((row): Limit[] => {
    if (row.what === "hoursToLab" || row.what === "hoursToDrying") return [{ hours: row.value, row }];
    return row.what === "daysUnchilled" ? [{ hours: row.value * 24, row }] : [];
  });
  return limits.sort((a, b) => a.hours - b.hours)[0];
};

/** "in 30 hours", "in 2 days", "on the same day", as it was recorded. */
const timeTaken = ({ date, hoursToLab, receivedOn }: SamplingEvent): string | undefined => {
  if (hoursToLab !== undefined) return `in ${counted(hoursToLab, "hour")}`;
  if (receivedOn === undefined) return undefined;
  return receivedOn === date ? "on the same day" : `in ${counted(daysBetween(date, receivedOn), "day")}`;
};

/** How long it took to the laboratory, and how the bags were kept on the way. */
export const wayFinding = (event: SamplingEvent, place: SampledPlace): Finding => {
  const base = { id: "way", analytes: [] } as const;
  const { hoursToLab, receivedOn, keeping } = event;
  const took = timeTaken(event);
  if (took === undefined && !kept(event)) {
    const words =
      keeping === undefined
        ? "Neither how the bags were kept nor when they reached the laboratory is recorded."
        : "The bags went as taken; when they reached the laboratory is not recorded.";
    return { ...base, severity: "not recorded", words };
  }
  const there = took === undefined ? "When the bags reached the laboratory is not recorded" : `To the laboratory ${took}`;
  const told = `${there}, ${keeping === undefined ? "how they were kept is not recorded" : keeping === "as taken" ? "kept as taken" : keeping}`;
  if (kept(event)) return { ...base, source: "common-practice", severity: "fine", words: `${told}.` };
  const limit = limitOf(place);
  if (!limit)
    return {
      ...base,
      severity: keeping === undefined ? "not recorded" : "not judged",
      words: `${told}; no chosen guideline says how soon the bags must be there.`,
    };
  const hours = hoursToLab ?? daysBetween(event.date, receivedOn!) * 24;
  const rest = { ...base, source: limit.row.source, evidence: limit.row.evidence };
  const wanted = `the guideline allows ${counted(limit.hours, "hour")} without drying or cooling`;
  if (hours <= limit.hours) return { ...rest, severity: "fine", words: `${told}; ${wanted}.` };
  const brief = "too long on the way";
  return event.purpose === "nitrate"
    ? {
        ...rest,
        analytes: ["nitrateN"],
        severity: keeping === undefined ? "read with care" : "not fit for the purpose",
        words: `${told}, where ${wanted}: moist soil goes on making nitrate.`,
        brief,
      }
    : { ...rest, analytes: "all", severity: "read with care", words: `${told}, where ${wanted}.`, brief };
};
