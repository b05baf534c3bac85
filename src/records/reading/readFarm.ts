import type { Guideline } from "../../interpretation/guideline.ts";
import type { Manure } from "../../interpretation/manure.ts";
import { manureMeasureIds, manureOf } from "../../interpretation/manure.ts";
import type { Source } from "../../interpretation/outcome.ts";
import { convert } from "../../interpretation/units.ts";
import type { AnalyteId, LimeIndexId } from "../../interpretation/vocabulary.ts";
import { Folder, isFolder, sameFolder } from "../folder.ts";
import { exactly, idFolder, yamlRecord } from "../judges.ts";
import type { Farm, FarmProduct, Field, Lab } from "../model.ts";
import { allowedWords } from "../nearMiss.ts";
import { newestDate } from "./newestDate.ts";
import { fieldName, start } from "../place.ts";
import type { Problem } from "../problem.ts";
import { Problems } from "../problem.ts";
import type { FarmContext } from "./readField.ts";
import { readField } from "./readField.ts";
import { readLibrary } from "./readLibrary.ts";
import { readReports, warnOfUnnamedReports } from "./readReports.ts";
import { checkMeasuring } from "./readSampling.ts";
import { recordsPrint } from "../sealing/recordsPrint.ts";
import type { FarmRecord, Product } from "../schemas/farm.ts";
import { farm as farmSchema } from "../schemas/farm.ts";
import type { LabRecord } from "../schemas/lab.ts";
import { lab as labSchema } from "../schemas/lab.ts";
import { warnOfUnread } from "./unreadMethods.ts";
import { warnOfResultSlips } from "./resultSlips.ts";
import { warnOfCopiedResults } from "./copiedResults.ts";
import { warnOfYieldSlips } from "./yieldSlips.ts";
import { warnOfUnstatedRotation } from "./unstatedRotation.ts";
import { warnOfYearSlips } from "./yearSlips.ts";
import type { Parsed } from "../yaml/yamlFile.ts";
import { parseRecord } from "../yaml/yamlFile.ts";
import { withZonesOf } from "../../interpretation/zoneLife.ts";

export interface ReadOptions {
  /** The farm's folder of records. */
  readonly content: string;
  /** The installation's own content folder, whose guidelines and references every farm may use. */
  readonly library?: string | undefined;
  /** The day to speak from, `YYYY-MM-DD`; absent: the newest date in the records. */
  readonly today?: string | undefined;
  /** Texts to be read in place of what files of the farm hold, by their paths below `content`: how the records would be. */
  readonly instead?: ReadonlyMap<string, string> | undefined;
}

export interface ReadResult {
  /** Absent when there is any error: a site is built from all of the records or not at all. */
  readonly farm: Farm | undefined;
  readonly problems: readonly Problem[];
}

/** Read and check every record below `content`. Writes nothing and never throws for a mistake in a record. */
export const readFarm = ({ content, library, today, instead }: ReadOptions): ReadResult => {
  const problems = new Problems();
  if (!isFolder(content)) {
    problems.error(content, start, "", "is not a folder; give the folder that holds farm.yaml with --content");
    return { farm: undefined, problems: problems.all };
  }
  const folder = new Folder(content, problems, "", instead);
  const folders = [folder];
  if (library !== undefined && isFolder(library) && !sameFolder(library, content))
    folders.unshift(new Folder(library, problems, "installed:"));
  folder.list("", exactly(["farm.yaml", "references.yaml"], ["fields", "labs", "guidelines", "reports"]));
  const shelf = readLibrary(folders, problems);
  const parsed = readFarmFile(folder, problems);
  const labs = readLabs(folder, problems);
  const reports = readReports(folder, problems);
  const products = parsed ? readProducts(parsed, problems) : new Map<string, FarmProduct>();

  const choose: FarmContext["choose"] = (ids, from, path) =>
    ids.flatMap((id, i): Guideline[] => {
      const found = shelf.guidelines.get(id);
      const error = (message: string): void =>
        problems.error(from.file, from.at([path, i]), fieldName([path, i]), `guideline "${id}" ${message}`);
      if (ids.indexOf(id) < i) error("stands twice; keep one");
      else if (!found && !shelf.broken.has(id)) error(`is not known; ${allowedWords(id, [...shelf.guidelines.keys()])}`);
      return found ? [found] : [];
    });
  const guidelines = parsed ? choose(parsed.value.guidelines, parsed, "guidelines") : [];

  const context: FarmContext = {
    labs: labs.read,
    labIds: labs.ids,
    reports,
    products,
    productsKnown: parsed !== undefined,
    guidelines,
    shelf: shelf.guidelines,
    choose,
  };
  const fieldIds = folder.list("fields", idFolder);
  const fields = fieldIds.flatMap((id): Field | Field[] => readField(folder, id, context, problems) ?? []);
  if (parsed) checkAudiences(parsed, fieldIds, problems);
  if (parsed && fields.length === 0 && problems.errors.length === 0)
    problems.error("fields", start, "", "holds no field; a farm needs at least one");
  if (!parsed || problems.errors.length > 0) return { farm: undefined, problems: problems.all };

  const { name, about, address, units, currency, publish, pricesOn, audiences } = parsed.value;
  const day = today ?? newestDate(fields);
  const farm: Farm = {
    name,
    about,
    address,
    units,
    currency,
    publish: { index: publish?.index ?? false, location: publish?.location ?? false, reports: publish?.reports ?? false },
    guidelines,
    products,
    pricesOn,
    labs: labs.read,
    usedGuidelines: new Map([...guidelines, ...fields.flatMap((f) => f.guidelines)].map((g) => [g.id, g])),
    allGuidelines: shelf.guidelines,
    ownGuidelines: shelf.own,
    references: shelf.references,
    fields: fields.map((f) => withZonesOf(f, day)),
    reports,
    audiences: new Map(Object.entries(audiences)),
    today: day,
    files: folders.reduce((sum, f) => sum + f.filesRead, 0),
    // What was measured, done and bought, as a bundle holds it too; guidelines bear fingerprints of their own in advice as issued.
    fingerprint: recordsPrint(folder.hashes, ["farm.yaml", "fields", "labs"]),
  };
  warnOfUnnamedReports(reports, fields, problems);
  warnOfUnread(farm, labs.parsed, problems);
  warnOfUnstatedRotation(farm, problems);
  warnOfYieldSlips(fields, problems);
  warnOfResultSlips(fields, problems);
  warnOfCopiedResults(fields, problems);
  warnOfYearSlips(fields, day, problems);
  return { farm, problems: problems.all };
};

const readFarmFile = (folder: Folder, problems: Problems): Parsed<FarmRecord> | undefined => {
  if (!folder.has("farm.yaml")) {
    problems.error("farm.yaml", start, "", "is missing; every farm needs one");
    return undefined;
  }
  const text = folder.read("farm.yaml");
  const parsed = text === undefined ? undefined : parseRecord(text, folder.name("farm.yaml"), farmSchema, problems);
  // A doubt and no error: a currency younger than the engine is one too.
  if (parsed && !Intl.supportedValuesOf("currency").includes(parsed.value.currency))
    problems.warn(
      parsed.file,
      parsed.at(["currency"]),
      "currency",
      `${parsed.value.currency} is no currency that is known here, and every sum of money would bear it; is it a slip?`,
    );
  return parsed;
};

const readLabs = (
  folder: Folder,
  problems: Problems,
): { read: Map<string, Lab>; ids: string[]; parsed: Map<string, Parsed<LabRecord>> } => {
  const read = new Map<string, Lab>();
  const files = new Map<string, Parsed<LabRecord>>();
  const names = folder.list("labs", yamlRecord);
  for (const name of names) {
    const text = folder.read(`labs/${name}`);
    const parsed = text === undefined ? undefined : parseRecord(text, folder.name(`labs/${name}`), labSchema, problems);
    if (!parsed) continue;
    for (const [id, offered] of Object.entries(parsed.value.packages))
      for (const [analyte, measured] of Object.entries(offered.measures))
        checkMeasuring(analyte as AnalyteId, measured, ["packages", id, "measures", analyte], parsed, problems);
    const id = name.replace(/\.yaml$/, "");
    read.set(id, { id, ...parsed.value });
    files.set(id, parsed);
  }
  return { read, ids: names.map((n) => n.replace(/\.yaml$/, "")), parsed: files };
};

/** A price as one for a short ton; the schema asks for a density where it is by volume. */
const perTon = ({ value, per }: NonNullable<Product["price"]>, poundsPerGallon: number | undefined): number =>
  per === "gal" || per === "l" ? (value * convert(1, "gal", per) * 2000) / poundsPerGallon! : value * convert(1, "ton", per);

/** The one analysis that the schema lets a manure have. */
const manure = (product: Product & { kind: "manure" }, poundsPerGallon: number | undefined): Manure => {
  const measure = manureMeasureIds.find((id) => product[id])!;
  return manureOf(measure, product[measure]!, poundsPerGallon);
};

/** Where percents were written as shares of one: hardly a product is sold for so little. Rates of it would be a hundred times too large. */
const shareOfOne = (product: Product): string[] | undefined => {
  // Seaweed is sold as 0-0-1.
  const isShare = (sum: number): boolean => sum > 0 && sum < 1;
  if (product.kind === "fertilizer")
    return isShare(Object.values(product.analysis).reduce((sum, each) => sum + each, 0)) ? ["analysis"] : undefined;
  if (product.kind === "manure") return undefined;
  const index = Object.entries(product.stated ?? {}).find(([, value]) => value < 2)?.[0];
  if (index !== undefined) return ["stated", index];
  if ((product.analysis?.cce ?? 2) < 2) return ["analysis", "cce"];
  return isShare(Math.max(...Object.values(product.analysis?.passing ?? {}))) ? ["analysis", "passing"] : undefined;
};

const readProducts = ({ value, file, at }: Parsed<FarmRecord>, problems: Problems): Map<string, FarmProduct> => {
  const products = new Map<string, FarmProduct>();
  for (const [id, product] of Object.entries(value.products)) {
    const slip = shareOfOne(product);
    if (slip) {
      const path = ["products", id, ...slip];
      problems.warn(file, at(path), fieldName(path), "looks like shares of one; in percent, 0.46 is 46");
    }
    const source = (path: (string | number)[]): Source => ({
      record: { file, ...at(["products", id, ...path]) },
      by: "stated by the supplier",
    });
    const poundsPerGallon =
      product.kind !== "lime" && product.density ? convert(product.density.value, product.density.unit, "lb/gal") : undefined;
    const pricePerTon = product.price && perTon(product.price, poundsPerGallon);
    products.set(id, {
      id,
      product,
      origin: { file, ...at(["products", id]) },
      poundsPerGallon,
      ...(product.kind === "manure" && { manure: manure(product, poundsPerGallon) }),
      ...(product.kind === "fertilizer" && {
        fertilizer: {
          id,
          name: product.name,
          analysis: product.analysis,
          source: source(["analysis"]),
          pricePerTon,
          ...(poundsPerGallon !== undefined && { poundsPerGallon }),
          holdsUrea: product.holdsUrea,
        },
      }),
      ...(product.kind === "lime" && {
        brings: product.brings,
        lime: {
          id,
          name: product.name,
          stated: Object.fromEntries(
            Object.entries(product.stated ?? {}).map(([index, percent]) => [
              index as LimeIndexId,
              { value: percent, source: source(["stated", index]) },
            ]),
          ),
          analysis: product.analysis && { ...product.analysis, source: source(["analysis"]) },
          pricePerTon,
        },
      }),
    });
  }
  return products;
};

const checkAudiences = ({ value, file, at }: Parsed<FarmRecord>, fieldIds: readonly string[], problems: Problems): void => {
  for (const [id, audience] of Object.entries(value.audiences))
    audience.fields?.forEach((field, i) => {
      const path = ["audiences", id, "fields", i];
      if (!fieldIds.includes(field))
        problems.error(file, at(path), fieldName(path), `field "${field}" is not in fields; ${allowedWords(field, fieldIds)}`);
    });
};
