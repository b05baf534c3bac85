import { expect, it } from "vitest";
import { planLabels } from "../../../src/records/starting/planLabels.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

/** What is read of a list with these rows, in the tiny farm unless another is given. */
const read = (rows: readonly string[], folder = farmFolder(), headers = "label,field,zone,purpose,cores,laboratory,package,depth_from_in,depth_to_in,depth_to_most_in") =>
  planLabels(folder.read().farm!, Buffer.from([headers, ...rows, ""].join("\r\n")));
const west = "N-1,North Field,West end,routine,20,North Laboratory,Basic test,0,8,";

it("reads bags with what is known of them, and leaves open what is not", () => {
  expect(read([west, "N-2,North Field,East end,routine,,,,,,"])).toMatchObject({ purpose: "routine", plannedFor: undefined, depth: "0-8 in", lab: { id: "north-lab" }, package: "basic", bags: [{ zone: "west", label: "N-1", cores: 20 }, { zone: "east", label: "N-2", cores: undefined }] });
  expect(read(["N-1,North Field,West end,routine,0,Another,Another test,0,8,9"])).toMatchObject({ depth: undefined, lab: undefined, package: undefined, bags: [{ cores: undefined }] });
});

it("knows a name that a spreadsheet would take for a formula", () => {
  const folder = farmFolder().write(paths.field, tinyFarm[paths.field]!.replace("North Field", '"=North"').replace("West end", '"+West"'));
  expect(read(["N-1,'=North,'+West,routine,,,,,,"], folder)).toMatchObject({ bags: [{ zone: "west" }] });
});

it.each<[string, readonly string[], string]>([
  ["without a bag", [], "names no bag"],
  ["of two fields", [west, west.replace("North", "South")], "holds bags of several fields or purposes"],
  ["of two purposes", [west, west.replace("routine", "nitrate")], "holds bags of several fields or purposes"],
  ["of no purpose", [west.replace("routine", "rutine")], 'has the purpose "rutine"; did you mean routine?'],
  ["of a zone that is not there", [west, west.replace("West end", "Far end")], 'has a bag of the zone "Far end", and North Field has none of that name'],
])("refuses a list %s", (_, rows, fault) => expect(read(rows)).toEqual({ fault }));

it("refuses a name that two bear, and says in which line a list cannot be read", () => {
  const twins = farmFolder().write(paths.field, tinyFarm[paths.field]!.replace("East end", "West end"));
  expect(read([west], twins)).toEqual({ fault: 'has a bag of the zone "West end", and North Field has several of that name' });
  const both = farmFolder().write("fields/south/field.yaml", tinyFarm[paths.field]!);
  expect(read([west], both)).toEqual({ fault: 'is of the field "North Field", and the farm has several of that name' });
  expect(read([west, `"N-2,North Field`])).toEqual({ fault: expect.stringMatching(/^line 3 /) as string });
});
