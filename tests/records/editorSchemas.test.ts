import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { analyteIds } from "../../src/interpretation/vocabulary.ts";
import { editorSchemas } from "../../src/records/editorSchemas.ts";

const folder = join(installation, ".vscode", "schemas");
const content = join(installation, "content");

interface Schema {
  readonly type?: string;
  readonly description?: string;
  readonly enum?: readonly string[];
  readonly required?: readonly string[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: unknown;
  readonly items?: Schema;
}

const schemas = editorSchemas();
const schemaOf = (name: string): Schema => JSON.parse(schemas.get(name)!) as Schema;

describe("the schemas for editors", () => {
  it("are those that npm run schemas would write", () => {
    expect(readdirSync(folder).sort()).toEqual([...schemas.keys()].sort());
    for (const [name, text] of schemas) expect(readFileSync(join(folder, name), "utf8"), `${name}: run npm run schemas`).toBe(text);
  });

  it("complete the keys of a sampling and refuse others", () => {
    const sampling = schemaOf("sampling.json");
    expect(sampling.required).toEqual(["date", "purpose", "lab", "package", "depth", "composites"]);
    expect(sampling.additionalProperties).toBe(false);
    expect(sampling.properties?.["purpose"]?.enum).toEqual(["routine", "phCheck", "nitrate"]);
    const composite = sampling.properties?.["composites"]?.items;
    expect(composite?.required).toEqual(["label", "zone"]);
    const results = composite?.properties?.["results"];
    expect(Object.keys(results?.properties ?? {})).toEqual(analyteIds);
    expect(results?.properties?.["K"]?.description).toBe("Potassium, usually in ppm");
    expect(results?.additionalProperties).toBe(false);
  });

  it("complete the methods and units of a laboratory's packages", () => {
    const packages = schemaOf("lab.json").properties?.["packages"]?.additionalProperties as Schema;
    const phosphorus = packages.properties?.["measures"]?.properties?.["P"]?.properties;
    expect(phosphorus?.["method"]?.enum).toContain("mehlich3");
    expect(phosphorus?.["unit"]?.enum).toContain("ppm");
  });
});

describe("the shipped records", () => {
  // Advice as issued is written by the program and never opened to be edited.
  const files = filesBelow(content).filter((f) => f.endsWith(".yaml") && !f.includes("/recommendations/"));

  it.each(files)("%s points to its schema, which knows its keys", (file) => {
    const text = readFileSync(join(content, file), "utf8");
    const kind = /(farm|field|references)\.yaml$/.exec(file)?.[1] ?? /(sampling|season|lab|guideline)s\/[^/]+$/.exec(file)?.[1];
    const up = "../".repeat(file.split("/").length);
    expect(text.split("\n")[0]).toBe(`# yaml-language-server: $schema=${up}.vscode/schemas/${kind}.json`);
    const record = parse(text) as Record<string, unknown>;
    const { properties, required = [] } = schemaOf(`${kind}.json`);
    expect(Object.keys(record)).toEqual(expect.arrayContaining([...required]));
    if (properties) expect(Object.keys(properties)).toEqual(expect.arrayContaining(Object.keys(record)));
  });
});
