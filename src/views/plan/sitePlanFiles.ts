import type { Farm } from "../../records/model.ts";
import { duePlans } from "./duePlans.ts";
import { planSampling } from "./planComposites.ts";
import { planGeoJson, planGpx, planLabelsCsv } from "./planFiles.ts";
import { paths } from "../paths.ts";

export interface SitePlanFile {
  readonly path: string;
  readonly type: string;
  readonly content: () => string;
}

/** Every file of every due plan that the site carries; those that tell where a farm lies only with its owner's word. */
export const sitePlanFiles = (farm: Farm): SitePlanFile[] =>
  farm.fields.flatMap((each) =>
    duePlans(farm, each).flatMap(({ field, purpose, request }): SitePlanFile[] => {
      const plan = () => planSampling(farm, field, request);
      const labels: SitePlanFile = {
        path: paths.planCsv(field.id, purpose),
        type: "text/csv; charset=utf-8",
        content: () => planLabelsCsv(farm, field, plan()),
      };
      if (!farm.publish.location) return [labels];
      return [
        labels,
        { path: paths.planGpx(field.id, purpose), type: "application/gpx+xml", content: () => planGpx(farm, field, plan()) },
        { path: paths.planGeoJson(field.id, purpose), type: "application/geo+json", content: () => planGeoJson(field, plan()) },
      ];
    }),
  );
