import { expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { fieldsCsv } from "../../../src/views/home/fieldsCsv.ts";
import { fieldRows, resultsCsv } from "../../../src/views/results/rows.ts";
import { library } from "../../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;

it("a result's line says how it was measured in words, how deep in the reader's unit, and what was corrected", () => {
  const lines = resultsCsv(fieldRows(demo.fields.find((f) => f.id === "causeway")!), "metric").split("\r\n");
  // Copied from the record; 8 in are 20.32 cm by definition.
  expect(lines).toContain(
    "causeway,knoll,2020-10-20,routine,K,,122,ppm,Mehlich-3,ICP,,0,20.32,fulmar-soil-laboratory,CA-2010,15,causeway/knoll/K/2,212,the laboratory reissued its report; two digits had been transposed,2020-11-19,,fields/causeway/samplings/2020-10-20.yaml:22",
  );
});

it("a unit of two words is one word in the head of a column", () => {
  expect(fieldsCsv({ ...demo, units: "garden" }).split("\r\n")[0]).toContain(",area_sq_ft,");
});
