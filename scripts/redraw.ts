import { choice } from "../src/records/choice.ts";
import type { Field, Zone } from "../src/records/model.ts";
import { allowedList, allowedWords } from "../src/records/nearMiss.ts";
import type { RedrawAsked } from "../src/records/zones/redraw.ts";
import { redraw } from "../src/records/zones/redraw.ts";
import { redrawPreview } from "../src/views/terminal/redrawPreview.ts";
import { changeRecords, readWhole, refused } from "./changeRecords.ts";
import type { Command } from "./command.ts";
import { fieldNamed } from "./fieldNamed.ts";
import { dayOf, farmFolderOf, parsedArguments, UsageError } from "./options.ts";

const about = `npm run redraw -- FIELD --end ZONE,ZONE --begin NAME,NAME --since YYYY-MM-DD [--write] [options]

Merges or splits zones of a field: some end on a day, and others begin in their place. The old ones stay in field.yaml for their
history. Where several become one, their polygons are joined; new zones of a split get theirs by npm run zones. Soil that all the
old ones share and crops planned for all of them go over to the new ones. Without --write it only shows what would be written.

  --end ZONE,ZONE      the zones that end, by id, name or letter
  --begin NAME,NAME    names of the zones that begin
  --since YYYY-MM-DD   the day: best that of the next sampling; after a harvest, and before anything is spread for the next crop
  --write              write fields/FIELD/field.yaml, and zones.geojson where it changes
  --content DIR        the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --help               print this and stop`;

const text = { type: "string" } as const;

interface Arguments {
  readonly field: string;
  readonly end: readonly string[];
  readonly begin: readonly string[];
  readonly since: string;
  readonly write: boolean;
  readonly content: string;
}

const readArguments = (argv: readonly string[]): Arguments => {
  const { values, positionals } = parsedArguments(
    argv,
    { end: text, begin: text, since: text, write: { type: "boolean" }, content: text },
    { words: true },
  );
  const [field] = positionals;
  if (field === undefined || positionals.length > 1)
    throw new UsageError(`give one field, by the name of its folder${positionals.length === 0 ? "" : `, not ${positionals.length}`}`);
  const since = dayOf("since", values.since);
  if (since === undefined) throw new UsageError("--since is missing; give the day on which the old zones end and the new ones begin");
  return {
    field,
    end: listed("end", values.end),
    begin: listed("begin", values.begin),
    since,
    write: values.write ?? false,
    content: farmFolderOf(values.content),
  };
};

const listed = (option: string, words: string | undefined): string[] => {
  const names = (words ?? "").split(",").map((name) => name.trim());
  if (names.some((name) => name === ""))
    throw new UsageError(`--${option} needs names with commas between, such as "${option === "end" ? "A, B" : "Long piece"}"`);
  return names;
};

/** A zone that has no end yet: one of today, or one that is to begin. */
const zoneOf = (field: Field, wanted: string, since: string): Zone => {
  const called = (zone: Zone): boolean => [zone.id, zone.name, zone.letter].some((name) => choice(wanted, [name]) === name);
  const all = [...field.zones, ...field.formerZones, ...field.laterZones];
  const open = all.filter((z) => z.until === undefined);
  const ids = open.map((z) => z.id);
  const zone = open.find(called);
  if (zone?.since !== undefined && zone.since >= since)
    throw new UsageError(`zone "${zone.id}" is a zone only since ${zone.since}; --since must be a later day, not ${since}`);
  if (zone) return zone;
  const ended = all.find(called);
  throw new UsageError(
    ended
      ? `zone "${ended.id}" ends on ${ended.until!} already; ${allowedList(ids)}`
      : `"${wanted}" is no zone of field "${field.id}"; ${allowedWords(wanted, ids)}`,
  );
};

const askedOf = (field: Field, { end, begin, since }: Arguments): RedrawAsked => {
  const ended = end.map((wanted) => zoneOf(field, wanted, since));
  const twice = ended.find((zone, i) => ended.indexOf(zone) < i);
  if (twice) throw new UsageError(`--end names zone "${twice.id}" twice; name it once`);
  return { ended, names: begin, since };
};

/** Show, and with --write write, zones that end and others that begin in their place. */
const run = (argv: readonly string[]): number => {
  const given = readArguments(argv);
  const { content } = given;
  const { farm, problems: before } = readWhole(content);
  if (!farm) return refused(before);
  const field = fieldNamed(farm, given.field);
  const asked = askedOf(field, given);
  const { redrawn, problems } = redraw(content, field, asked);
  if (!redrawn) return refused(problems.all);
  console.log(redrawPreview(farm, field, asked, redrawn));
  return changeRecords(content, redrawn.changes, { write: given.write, before });
};

export const command: Command = { about, run };
