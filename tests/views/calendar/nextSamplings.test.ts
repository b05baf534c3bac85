import { describe, expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { Field, PlannedCrop } from "../../../src/records/model.ts";
import { fullSampling, phCheck } from "../../../src/views/calendar/nextSamplings.ts";
import { nitrogenTests } from "../../../src/views/calendar/nitrogenTests.ts";
import { library } from "../../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const fieldOf = (id: string): Field => demo.fields.find((f) => f.id === id)!;

it("a field sampled on either side of New Year is asked for in the winter its interval ends in, and is called sampled in one season", () => {
  const netloft = fieldOf("netloft");
  const [upper, lower] = netloft.zones.map((z) => z.id) as [string, string];
  const taken = (date: string, zone: string) => ({ ...netloft.samplings.at(-1)!, id: date, date, composites: netloft.samplings.at(-1)!.composites.map((c) => ({ ...c, zone })) });
  const asked = (today: string, ...samplings: Field["samplings"]) => {
    const { slot, why } = fullSampling({ ...demo, today }, { ...netloft, samplings });
    return [slot, why.find((w) => w.includes("keep to"))];
  };
  const because = "because soil pH and potassium move with the season.";
  // Tri-State 2020 waits four years at most.
  expect(asked("2024-02-01", taken("2023-12-19", upper), taken("2024-01-08", lower))).toEqual([{ year: 2027, part: "winter" }, `Last sampled 8 January 2024: keep to winter, ${because}`]);
  expect(asked("2024-02-01", taken("2023-10-12", upper), taken("2024-01-08", lower))[1]).toBe(`Last sampled 8 January 2024: keep to autumn or winter, ${because}`);
  expect(asked("2028-01-20", taken("2023-01-08", upper), taken("2023-01-08", lower))[0]).toEqual({ year: 2027, part: "winter" });
});

describe("a nitrate test in June", () => {
  const netloft = fieldOf("netloft");
  const [corn] = netloft.plan.filter((p) => p.crop === "corn");
  const [first, second] = netloft.zones.map((z) => z.id) as [string, string];
  const planned = (season: number, crop: PlannedCrop["crop"], ...zones: string[]): PlannedCrop => ({ ...corn!, season, crop, zones });
  const asked = (plan: readonly PlannedCrop[], samplings = netloft.samplings) => nitrogenTests(demo, { ...netloft, plan, samplings }).map((t) => [t.slot?.year, t.zones.map((z) => z.id)]);

  it("is asked for on the zones where the crop is planned that year", () => {
    expect(asked([planned(2026, "corn", first), planned(2026, "soybean", second), planned(2027, "corn", second)])).toEqual([[2026, [first]], [2027, [second]]]);
  });

  it("is asked for until one was taken that year, and no other sampling stands in for it", () => {
    const of2026 = { ...netloft.samplings.at(-1)!, id: "2026-05-30", date: "2026-05-30" };
    expect(asked([planned(2026, "corn", first)], [...netloft.samplings, of2026])).toHaveLength(1);
    expect(asked([planned(2026, "corn", first)], [...netloft.samplings, { ...of2026, purpose: "nitrate" }])).toEqual([]);
    expect(asked([planned(2026, "corn", first)], [...netloft.samplings, { ...of2026, date: "2025-06-10", purpose: "nitrate" }])).toHaveLength(1);
  });
});

describe("a test of mineral nitrogen in spring", () => {
  const netloft = fieldOf("netloft");
  const plan: PlannedCrop[] = [{ ...netloft.plan[0]!, season: 2026, crop: "winterWheat" }];
  const german = { ...netloft, plan, guidelines: [demo.allGuidelines.get("de-ordinance-2017")!] };
  const asked = (field: Field, today = demo.today) => nitrogenTests({ ...demo, today }, field);

  it("is asked for where the ordinance takes it off the need of a planned crop, when growth begins", () => {
    const [test, ...more] = asked(german);
    expect(more).toEqual([]);
    expect(test).toMatchObject({ purpose: "nitrate", slot: { year: 2026, part: "spring" }, overdue: false });
    expect(test!.why).toEqual([
      "Winter wheat is planned, and German ordinance takes the mineral nitrogen in the soil off its need.",
      "When growth begins in spring, before nitrogen is spread.",
      "Figures of the Land's office or its advisers may stand in for a test of one's own.",
    ]);
  });

  it("is not asked for a crop without a printed need, nor once it was taken, nor after that spring", () => {
    expect(asked({ ...german, plan: [{ ...plan[0]!, crop: "soybean" }] })).toEqual([]);
    const taken = { ...netloft.samplings.at(-1)!, id: "2026-02-20-nitrate", date: "2026-02-20", purpose: "nitrate" as const };
    expect(asked({ ...german, samplings: [...german.samplings, taken] })).toEqual([]);
    expect(asked(german, "2026-07-01")).toEqual([]);
  });

  describe("by Britain's guide, which has another way for most fields", () => {
    const british = { ...german, guidelines: [demo.allGuidelines.get("uk-rb209-2023")!], samplings: german.samplings.filter((s) => s.purpose !== "nitrate"), seasons: german.seasons.map((s) => ({ ...s, applications: [] })) };
    const nitrate = (date: string) => ({ ...netloft.samplings.at(-1)!, id: `${date}-nitrate`, date, purpose: "nitrate" as const });
    const manured = { ...british, seasons: british.seasons.map((s) => (s.season === 2024 ? { ...s, applications: [{ ...netloft.seasons.flatMap((each) => each.applications)[0]!, product: { product: { kind: "manure" } } as never }] } : s)) };

    it("is not asked for where nothing on record makes the supply uncertain, nor for beans", () => {
      expect(asked(british)).toEqual([]);
      expect(asked({ ...manured, plan: [{ ...plan[0]!, crop: "fieldBeans" }] })).toEqual([]);
    });
    it("is asked for where manure was spread in the three years before, and where the field was tested before", () => {
      const [test] = asked(manured);
      expect(test).toMatchObject({ purpose: "nitrate", slot: { year: 2026, part: "spring" } });
      expect(test!.why.slice(0, 3)).toEqual([
        "Winter wheat is planned, and RB209 2023 tells its nitrogen by the mineral nitrogen in the soil.",
        "Manure was spread here for 2024, so the supply may be large and uncertain.",
        "In late winter or early spring before nitrogen is spread; on soil that leaches little autumn serves as well.",
      ]);
      expect(asked({ ...british, samplings: [nitrate("2024-02-20"), ...british.samplings] })[0]!.why[1]).toBe("It was last tested on 20 February 2024.");
    });
    it("is taken by a sample of that year, or of the autumn before", () => {
      for (const date of ["2026-02-20", "2025-09-01"]) expect(asked({ ...manured, samplings: [...manured.samplings, nitrate(date)] })).toEqual([]);
      expect(asked({ ...manured, samplings: [...manured.samplings, nitrate("2025-08-31")] })).toHaveLength(1);
    });
  });

  it("is the test of the guideline that is asked first", () => {
    const both = (...ids: string[]) => asked({ ...german, plan: [{ ...plan[0]!, crop: "corn" }, ...plan], guidelines: ids.map((id) => demo.allGuidelines.get(id)!) }).map((t) => t.slot?.part);
    expect(both("de-ordinance-2017", "us-iowa-nitrate")).toEqual(["June", "spring"]);
  });
});

describe("a check of pH between two full samplings", () => {
  const causeway = fieldOf("causeway");
  const full = fullSampling(demo, causeway);

  it("falls halfway, in the season of the last check, and is taken where lime is called for", () => {
    expect(phCheck(demo, causeway, full)).toMatchObject({ slot: { year: 2027, part: "spring" }, overdue: false, zones: [{ id: "outwash" }] });
  });

  it("falls halfway through the years that a winter's sampling begins, of whichever side of New Year it is", () => {
    const of = (date: string) => {
      const winter = { ...causeway, samplings: causeway.samplings.filter((s) => s.purpose !== "phCheck").map((s, i, all) => (i === all.length - 1 ? { ...s, date } : s)) };
      return phCheck({ ...demo, today: "2026-02-01" }, winter, { ...full, slot: { year: 2029, part: "winter" } })?.slot;
    };
    expect([of("2025-12-18"), of("2026-01-18")]).toEqual([{ year: 2027, part: "winter" }, { year: 2027, part: "winter" }]);
  });

  it("is not asked for where a full sampling is overdue or has no date, or one was made since", () => {
    expect(phCheck(demo, causeway, { ...full, overdue: true })).toBeUndefined();
    expect(phCheck(demo, causeway, { ...full, slot: undefined })).toBeUndefined();
    const checked = { ...causeway.samplings.at(-1)!, id: "2025-10-25", date: "2025-10-25", purpose: "phCheck" as const };
    expect(phCheck(demo, { ...causeway, samplings: [...causeway.samplings, checked] }, full)).toBeUndefined();
  });

  it("is not asked for where the full sampling comes as soon", () => expect(phCheck(demo, causeway, { ...full, slot: { year: 2027, part: "spring" } })).toBeUndefined());
});

it("keeps each zone to its own season where some were sampled in spring and others in autumn", () => {
  const causeway = fieldOf("causeway");
  const [autumn, ...others] = causeway.zones;
  const last = causeway.samplings.findLast((s) => s.purpose === "routine")!;
  const spring = { ...last, id: "2026-03-12", date: "2026-03-12", composites: last.composites.filter((c) => c.zone !== autumn!.id) };
  expect(others).toHaveLength(2);
  expect(fullSampling(demo, causeway).why).toContain("Last sampled 18 October 2025: keep to autumn, because soil pH and potassium move with the season.");
  expect(fullSampling(demo, { ...causeway, samplings: [...causeway.samplings, spring] }).why).toContain(
    "Zones last sampled from 18 October 2025 to 12 March 2026: keep to each zone's own season, because soil pH and potassium move with the season.",
  );
});
