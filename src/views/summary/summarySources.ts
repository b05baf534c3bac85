import type { Outcome } from "../../interpretation/outcome.ts";
import { weakestEvidence } from "../../interpretation/outcome.ts";
import type { Farm, Field } from "../../records/model.ts";
import { fertilityOutcomes } from "./fertilityNow.ts";
import { intervalOf } from "../calendar/nextSamplings.ts";
import { zoneOwed } from "./owed.ts";
import { answered } from "./owedRows.ts";
import type { EvidenceMark } from "../steps.ts";
import { evidenceMark } from "../steps.ts";
import { capital, count, list, longDate } from "../words.ts";

/** Whose word something is, and how well it is known. */
export interface Basis {
  readonly text: string;
  readonly mark: EvidenceMark | undefined;
}

/** Something that can be worked out again, and how. */
export interface Proof {
  readonly what: string;
  readonly sha256: string;
  readonly how: string;
  readonly command: string | undefined;
}

interface Told {
  readonly outcome: Outcome<unknown>;
  readonly pack: { readonly short: string } | undefined;
}

export const packsOf = (told: readonly Told[]): string[] => [
  ...new Set(told.flatMap(({ outcome, pack }) => (outcome.kind === "answer" && pack ? [pack.short] : []))),
];

export const basisOf = (what: string, outcomes: readonly Outcome<unknown>[], packs: readonly string[]): Basis | undefined =>
  packs.length === 0
    ? undefined
    : {
        text: `${what} ${list(packs)}`,
        mark: evidenceMark(weakestEvidence(outcomes.flatMap((o) => (o.kind === "answer" ? o.steps : [])))),
      };

/** Whose word each amount is, with the mark of its weakest step over all zones. */
export const owedBases = (farm: Farm, fields: readonly Field[]): Basis[] => {
  const owed = fields.flatMap((field) => field.zones.flatMap((zone) => zoneOwed(farm, field, zone) ?? []));
  const limes = owed.flatMap(({ lime, season }): Told[] =>
    lime.kind === "answer" && lime.value !== "none"
      ? [
          {
            outcome: season.advised!.advice.advice.lime.rates.find((r) => r.outcome.kind === "answer")?.outcome ?? lime,
            pack: season.lines.find((l) => l.kind === "lime")?.packs[0],
          },
        ]
      : [],
  );
  const nutrients = (["phosphorus", "potassium"] as const).map((part) => ({
    part,
    told: owed.flatMap((z): Told[] => {
      const one = answered(z[part]);
      return one ? [one] : [];
    }),
  }));
  return alikeTogether(
    [
      basisOf(
        "lime by",
        limes.map((t) => t.outcome),
        packsOf(limes),
      ),
      ...nutrients.map(({ part, told }) =>
        basisOf(
          `${part} by`,
          told.map((t) => t.outcome),
          packsOf(told),
        ),
      ),
    ].filter((b): b is Basis => b !== undefined),
  );
};

/** What is known equally well is told in one breath. */
const alikeTogether = (bases: readonly Basis[]): Basis[] =>
  [...Map.groupBy(bases, (b) => b.mark?.grade)].map(([, alike]) => ({
    text: capital(list(alike.map((b) => b.text))),
    mark: alike[0]!.mark,
  }));

/** Every answer of a field's sheet, for its sources. */
export const summaryOutcomes = (farm: Farm, field: Field): Outcome<unknown>[] => [
  ...fertilityOutcomes(farm, field),
  ...field.zones.flatMap((zone) => {
    const owed = zoneOwed(farm, field, zone);
    return owed
      ? [
          ...owed.advice.advice.lime.rates.map((r) => r.outcome),
          owed.lime,
          ...[...owed.phosphorus, ...owed.potassium].map((n) => n.outcome),
        ]
      : [];
  }),
  intervalOf(field).outcome,
];

export const fieldProofs = (farm: Farm, field: Field): Proof[] => {
  const { sha256, files, command } = field.fingerprint;
  const latest = field.recommendations.at(-1);
  return [
    {
      what: `The records of this field${farm.withheld ? ", whole" : `, ${count(files, "file")}`}`,
      sha256,
      how: "Whoever holds the records can work this out again, where farm.yaml lies, without this program:",
      command,
    },
    ...(latest
      ? [
          {
            what: `Advice issued on ${longDate(latest.id)} (for ${latest.record.for})`,
            sha256: latest.record.sha256.replace(/^sha256:/, ""),
            how: "It seals the file's canonical JSON (RFC 8785); a change of it stops the building of this site.",
            command: undefined,
          },
        ]
      : []),
  ];
};
