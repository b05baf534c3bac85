import { join } from "node:path";
import { installation } from "../../scripts/options.ts";
import type { FarmFolder } from "./farmFolder.ts";
import { farmFolder } from "./farmFolder.ts";
import { paths, tinyFarm } from "./tinyFarm.ts";

/** The shipped guidelines and references, beside a farm in a temporary folder. */
export const library = join(installation, "content");

/** A farm in acres with a garden of it in 1,000 sq ft: the same two fields, the same soil, the same tests; its place published. */
export const gardenFarm = (): FarmFolder => {
  const folder = farmFolder()
    .write(
      paths.farm,
      tinyFarm[paths.farm]!
        .replace("[small-guide]", "[us-tristate-974-2020, us-oregon-lime-2025]\npublish: { location: true }")
        .replace("stated: { cce: 90 }", "stated: { limeScore: 92 }\n    price: { value: 46, per: ton }")
        .replace("name: muriate of potash\n", "name: muriate of potash\n    price: { value: 450, per: ton }\n"),
    )
    .remove("guidelines");
  const place = tinyFarm[paths.field]!.replace("texture: siltLoam,", "texture: siltLoam, subsoilPh: 6.5,").replace("zones:\n", "targetPh: { value: 6.5, reason: a test }\nzones:\n");
  const sampling = tinyFarm[paths.sampling]!.replace("pH: 6.2", "pH: 5.8").replace("bufferPh: 6.7", "bufferPh: 6.4");
  for (const [field, own] of [["north", ""], ["kitchen", "units: garden\n"]] as const) {
    folder.write(`fields/${field}/field.yaml`, `${field === "kitchen" ? place.replace("North Field", "Kitchen") : place}${own}`).write(`fields/${field}/samplings/2025-10-18.yaml`, sampling);
    folder.write(`fields/${field}/zones.geojson`, tinyFarm[paths.zones]!).write(`fields/${field}/seasons/2025.yaml`, tinyFarm[paths.season]!);
  }
  return folder;
};
