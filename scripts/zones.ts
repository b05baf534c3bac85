import { existsSync, readFileSync, statSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { mostBoundaryBytes, readBoundaries, tooLarge } from "../src/exchange/boundaries/boundaries.ts";
import { BoundaryError } from "../src/exchange/boundaries/boundaryError.ts";
import { readBoundaryField } from "../src/records/zones/boundaryField.ts";
import { replaceFile } from "../src/records/wholeWrite.ts";
import { formatProblems } from "../src/records/problem.ts";
import { zonesFromBoundaries, zonesText } from "../src/records/zones/zonesFromBoundaries.ts";
import { boundaryPreview } from "../src/views/terminal/boundaryPreview.ts";
import type { Command } from "./command.ts";
import { farmFolderOf, notAFile, parsedArguments, standing, UsageError } from "./options.ts";

const about = `npm run zones -- FILE --field ID [--write] [options]

Brings in the boundaries of a field's zones, and shows the area of each. FILE is .geojson, .kml, .gpx (each track or route
goes round one zone) or a zipped shapefile, in WGS 84. Shapes go to the zones of field.yaml by id, name or letter; zones
that FILE leaves out keep their polygon. Crossings and overlaps are refused.

  --field ID             the field, by the name of its folder
  --zone-name PROPERTY   the property that names a shape's zone (default: zone, name, title, label or id)
  --write                write fields/ID/zones.geojson; without it nothing is written
  --content DIR          the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --help                 print this and stop`;

const text = { type: "string" } as const;

const readArguments = (argv: readonly string[]) => {
  const { values, positionals } = parsedArguments(
    argv,
    { field: text, "zone-name": text, write: { type: "boolean" }, content: text },
    { words: true },
  );
  const [file] = positionals;
  if (file === undefined || positionals.length > 1)
    throw new UsageError(
      `give one file of boundaries, such as walk.gpx${positionals.length === 0 ? "" : `, not ${positionals.length} files`}`,
    );
  if (!values.field) throw new UsageError("--field is missing; say whose boundaries these are");
  if (values["zone-name"]?.trim() === "") throw new UsageError("--zone-name needs the name of a property");
  return {
    file,
    field: values.field,
    property: values["zone-name"]?.trim(),
    write: values.write ?? false,
    content: farmFolderOf(values.content),
  };
};

/** Read boundaries, give them to a field's zones, show them, and write them when told to. */
const run = (argv: readonly string[]): number => {
  const given = readArguments(argv);
  const path = resolve(standing(), given.file);
  if (!existsSync(path) || !statSync(path).isFile()) throw new UsageError(notAFile(path, given.file));
  const name = basename(path);
  const { field, problems } = readBoundaryField(given.content, given.field);
  if (problems.all.length > 0) console.error(formatProblems(problems.all));
  if (!field) return 1;
  try {
    if (statSync(path).size > mostBoundaryBytes) throw new BoundaryError(tooLarge);
    const { shapes, notes } = readBoundaries(readFileSync(path), name);
    const drawn = zonesFromBoundaries(shapes, field, given.property);
    console.log(boundaryPreview(field, drawn, notes));
    const target = `fields/${field.id}/zones.geojson`;
    if (given.write) replaceFile(join(given.content, ...target.split("/")), zonesText(drawn));
    console.log(given.write ? `Written to ${target}.` : `Nothing was written. With --write this becomes ${target}.`);
    return 0;
  } catch (cause) {
    if (!(cause instanceof BoundaryError)) throw cause;
    throw new UsageError(oneLine(`${name}: ${cause.message}`));
  }
};

/** Names out of a file may hold anything; a message is one line. */
function oneLine(message: string): string {
  return message.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]+/g, " ");
}

export const command: Command = { about, run };
