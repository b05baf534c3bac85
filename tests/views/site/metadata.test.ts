import { describe, expect, it } from "vitest";
import type { Farm } from "../../../src/records/model.ts";
import { dataset, datasetJson, robots } from "../../../src/views/site/metadata.ts";
import { farmFolder } from "../../support/farmFolder.ts";

/** The tiny farm with lines added to its farm.yaml. */
const farmWith = (lines: string): Farm => {
  const { farm, problems } = farmFolder().change("farm.yaml", "currency: USD\n", `currency: USD\n${lines}`).read();
  expect(problems).toEqual([]);
  return farm!;
};

describe("what a search engine is told", () => {
  it.each([
    ["", "noindex"],
    ["publish: {}\n", "noindex"],
    ["publish: { location: true }\n", "noindex"],
    ["publish: { index: false }\n", "noindex"],
    ["publish: { index: true }\n", "index"],
  ])("with %j in farm.yaml: %s", (lines, told) => expect(robots(farmWith(lines))).toBe(told));
});

describe("the description for machines", () => {
  it("says what was measured, how, when and where the tables are", () =>
    expect(dataset(farmWith("about: Two zones < one.\n"))).toEqual({
      "@context": "https://schema.org",
      "@type": "Dataset",
      name: "Tiny Farm: field history",
      description: "Two zones < one.",
      dateModified: "2025-11-01",
      temporalCoverage: "2024-10-14/2025-10-18",
      variableMeasured: [
        { "@type": "PropertyValue", name: "Soil pH" },
        { "@type": "PropertyValue", name: "Potassium", unitText: "ppm" },
        { "@type": "PropertyValue", name: "Buffer pH" },
        { "@type": "PropertyValue", name: "Phosphorus", unitText: "ppm" },
      ],
      measurementTechnique: ["1:1 water", "Mehlich-3", "Sikora buffer"],
      distribution: [
        { "@type": "DataDownload", name: "The newest results", encodingFormat: "text/csv", contentUrl: "data/latest-results.csv" },
        { "@type": "DataDownload", name: "The list of fields and what each needs", encodingFormat: "text/csv", contentUrl: "data/fields.csv" },
      ],
    }));

  it("tells of a field's own tables on its page, as a part of the farm's, and of none on any other page", () => {
    const farm = farmWith("");
    const [north] = farm.fields;
    expect(JSON.parse(datasetJson(farm, "fields/north.html", north)!)).toEqual({
      "@context": "https://schema.org",
      "@type": "Dataset",
      name: "North Field: field history",
      description: "Soil samplings, seasons and advice of North Field, Tiny Farm.",
      isPartOf: { "@type": "Dataset", name: "Tiny Farm: field history", url: "../index.html" },
      distribution: [
        { "@type": "DataDownload", name: "Every result of North Field", encodingFormat: "text/csv", contentUrl: "../data/north-results.csv" },
        { "@type": "DataDownload", name: "Nutrient balance of North Field", encodingFormat: "text/csv", contentUrl: "../data/north-balance.csv" },
      ],
    });
    expect([datasetJson(farm, "fields/north/timeline.html", north), datasetJson(farm, "season.html")]).toEqual([undefined, undefined]);
  });

  it("gives no place away, not even a degree of it or the address, unless the owner says so", () => {
    const text = datasetJson(farmWith("address: 1 North Road\npublish: { index: true }\n"), "index.html");
    expect(text).not.toMatch(/spatial|geo|North Road|-?37\.0|44/i);
  });

  it("gives the box around the zones, south west north east, and the address when the owner says so", () =>
    expect(dataset(farmWith("address: 1 North Road\npublish: { location: true }\n"))["spatialCoverage"]).toEqual({
      "@type": "Place",
      address: "1 North Road",
      geo: { "@type": "GeoShape", box: "44 -37.004 44.002 -37" },
    }));

  it("cannot end the script it stands in, and reads back the same", () => {
    const farm = farmWith('about: "</script><script>alert(1)"\n');
    expect(datasetJson(farm, "index.html")).not.toContain("<");
    expect(JSON.parse(datasetJson(farm, "index.html")!)).toEqual(dataset(farm));
  });
});
