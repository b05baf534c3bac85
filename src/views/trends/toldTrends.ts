import { analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { trendModel } from "./trend.ts";
import { trendPages } from "./trendPages.ts";

/** A trend in words: what its figure, which is on another page, says of each zone. */
export interface ToldTrend {
  readonly title: string;
  readonly label: string;
  readonly rows: readonly { readonly zone: Zone; readonly now: string; readonly says: string }[];
}

/** pH and potassium in words, where their figures are too heavy for the field's own page. */
export const toldTrends = (farm: Farm, field: Field, advised: ReadonlyMap<string, ZoneAdvice>): ToldTrend[] =>
  (["pH", "K"] as const)
    .filter((analyte) => !trendPages(field).onFieldPage.includes(analyte))
    .flatMap((analyte) => {
      const model = trendModel(farm, field, analyte, advised);
      return model
        ? [
            {
              title: model.title,
              label: analytes[analyte].label,
              rows: model.panels.map(({ zone, verdict }) => ({ zone, now: verdict.now, says: verdict.says })),
            },
          ]
        : [];
    });
