import { sameDimension } from "../../interpretation/units.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import { cereals, crops } from "../../interpretation/vocabulary.ts";
import type { NewFile } from "./newRecordsText.ts";

export interface NewSeason {
  readonly field: string;
  readonly year: number;
  readonly crop: CropId;
  readonly zones: readonly string[];
  /** One of the farm's products, for the example; absent where it has none. */
  readonly product: string | undefined;
  readonly rateUnit: string;
}

/** Numbers that are there to be replaced, in the unit of each. */
const exampleYield = { "bu/ac": 100, "ton/ac": 4, "t/ha": 8, "lb/1000 sq ft": 200 } as const;

/** The crop's own unit; in a garden pounds on 1,000 sq ft, but for what is counted in bushels, which have no weight here. */
const yieldUnitFor = ({ crop, rateUnit }: NewSeason): keyof typeof exampleYield => {
  const { yieldUnit } = crops[crop];
  return rateUnit === "lb/1000 sq ft" && sameDimension(yieldUnit, rateUnit) ? rateUnit : yieldUnit;
};

/** What was grown and applied in one season, to be filled in as the year goes on. */
export const newSeason = (s: NewSeason): NewFile => ({
  path: `fields/${s.field}/seasons/${s.year}.yaml`,
  schema: "season",
  text: `# What was grown, harvested and really applied; not what was planned or advised.
# A line that begins with # and a key is optional: take the # away and put your own value in place of the example.
# The year of harvest: what was sown or spread for it in the autumn before belongs here too.
season: ${s.year}
# One entry a crop, or a crop and zone where yields differ. zones: of ${s.zones.join(", ")}; left out, the whole field.
crops:
  - crop: ${s.crop}
    #zones: [${s.zones[0]!}]
    # Days, YYYY-MM-DD.
    #planted: ${s.crop.startsWith("winter") ? `${s.year - 1}-10-01` : `${s.year}-05-01`}
    #harvested: ${s.crop.startsWith("winter") ? `${s.year}-08-15` : `${s.year}-10-01`}
    # 0 where the crop stood and nothing was taken; left out where it is not known. moisture: percent, as it was weighed.
    #yield: { value: ${exampleYield[yieldUnitFor(s)]}, unit: ${yieldUnitFor(s)} }
    #moisture: 15
${cereals.has(s.crop) ? "    # What became of the straw: removed or incorporated.\n    #straw: removed\n" : ""}# Everything that was spread. product: an id in farm.yaml. rate: value and unit, lb/ac, kg/ha, ton/ac, t/ha or lb/1000 sq ft;
# of a liquid with density in farm.yaml also gal/ac, l/ha, m3/ha or gal/1000 sq ft.
${
  s.product === undefined
    ? "# Each is { date, product, zones, rate: { value, unit }, incorporated }, once farm.yaml has products.\napplications: []"
    : `#applications:\n#  - { date: ${s.year}-04-20, product: ${s.product}, rate: { value: 100, unit: ${s.rateUnit} }, incorporated: true }`
}
#note: What the numbers do not say.
`,
});
