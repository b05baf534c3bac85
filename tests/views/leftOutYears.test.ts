import { describe, expect, it } from "vitest";
import { advise } from "../../src/interpretation/advise.ts";
import { forAudience } from "../../src/records/audience/forAudience.ts";
import type { Farm, Field } from "../../src/records/model.ts";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import type { AudienceRecord } from "../../src/records/schemas/audience.ts";
import { calendarView } from "../../src/views/calendar/calendar.ts";
import { dueOf } from "../../src/views/calendar/due.ts";
import { fieldView } from "../../src/views/field/field.ts";
import { fieldsCsv } from "../../src/views/home/fieldsCsv.ts";
import { fieldSummary } from "../../src/views/summary/fieldSummary.ts";
import { homeView } from "../../src/views/home/home.ts";
import { latestAdvice } from "../../src/views/advice/sample.ts";
import { noRateMap } from "../../src/views/season/seasonMapFiles.ts";
import { seasonView } from "../../src/views/season/season.ts";
import { library } from "../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const shown = (seasons: AudienceRecord["seasons"]): Farm => forAudience(demo, { name: "A reader", leaveOut: [], seasons });
const saltings = (farm: Farm): Field => farm.fields.find((f) => f.id === "saltings")!;
const factsOf = (facts: readonly { readonly term: string; readonly value: string }[]): Record<string, string> => Object.fromEntries(facts.map((f) => [f.term, f.value]));

describe("crops after the last year shown", () => {
  const farm = shown({ from: 2021, to: 2024 });
  const view = fieldView(farm, saltings(farm));
  const zone = latestAdvice(farm, saltings(farm), saltings(farm).zones[0]!)!;

  it("are called left out, and not unplanned: the owner has planned them", () => {
    expect(factsOf(fieldView(demo, saltings(demo)).facts)["Next crop"]).toBe("alfalfa, 2026");
    expect(factsOf(view.facts)["Next crop"]).toBe("left out for this reader");
    expect(view.lede).toBe("No lime rate, because it rests on the next crop, which is left out for this reader.");
    expect(homeView(farm).lede).toBe("Nothing that this reader is shown needs doing now.");
    expect(homeView(farm).tasks.map((t) => t.detail)).toEqual(farm.fields.map(() => "Rates for crops after the years shown are left out for this reader."));
    expect(seasonView(farm).lede).toBe("Nothing to buy that this reader is shown. Rates for crops after the years shown are left out for this reader.");
    expect([noRateMap(farm), noRateMap(demo)]).toEqual(["No rate map that this reader is shown.", "No rate map, because no zone has a rate to spread."]);
    const told = JSON.stringify([view, seasonView(farm), calendarView(farm), fieldSummary(farm, saltings(farm)), fieldsCsv(farm)]);
    expect(told.match(/no crop is planned|no crop planned|none planned|planned crop in field\.yaml|crop is not known|no guideline chosen says/gi)).toBeNull();
  });

  it("are not replaced by a guideline that needs no crop", () => {
    const other = demo.allGuidelines.get("us-delaware-phosphorus")!;
    const rated = (facts: typeof zone.sample.facts): string | undefined => {
      const rating = advise({ ...zone.sample, facts, packs: [...zone.sample.packs, other] }).ratings.find((r) => r.measurement.analyte === "P")!;
      return rating.outcome.kind === "answer" ? rating.pack!.id : rating.outcome.because;
    };
    expect(rated({ ...zone.sample.facts, cropWithheld: undefined })).toBe("us-delaware-phosphorus");
    expect(rated(zone.sample.facts)).toBe("it rests on the next crop, which is left out for this reader");
  });

  it("stay where they are of a year that is shown, and where nothing after is left out", () => {
    const whole = shown({ to: 2026 });
    expect(factsOf(fieldView(whole, saltings(whole)).facts)["Next crop"]).toBe("alfalfa, 2026");
    const unplanned = { ...demo, fields: demo.fields.map((f) => ({ ...f, plan: [] })) };
    expect(factsOf(fieldView(unplanned, saltings(unplanned)).facts)["Next crop"]).toBe("none planned");
  });
});

describe("samplings before the first year shown", () => {
  it("may still be in time, so that nothing is called overdue or never sampled", () => {
    // Saltings was sampled in October 2020, which holds for four years.
    const farm = shown({ from: 2022, to: 2022 });
    const field = saltings(farm);
    expect(dueOf(farm, field)).toEqual({ last: undefined, next: undefined, overdue: false, never: true, redrawn: false, words: "not known, because earlier samplings are left out for this reader" });
    const view = fieldView(farm, field);
    expect([view.lede, view.why]).toEqual(["No routine sampling of this field is shown.", "There is nothing to advise from: earlier samplings are left out for this reader."]);
    expect(view.noBalance).toBe("No balance, because no whole season of this field is in the years shown.");
    expect(factsOf(homeView(farm).facts)["Sampled within the guideline's interval"]).toBeUndefined();
    expect(JSON.stringify(homeView(farm))).not.toMatch(/"never"|Sample (again|every)/);
    expect(calendarView(farm).undated.every((e) => e.why.includes("When is not known, because earlier samplings are left out for this reader."))).toBe(true);
    expect(factsOf(fieldSummary(farm, field).kept)["Tested in time"]).toBe("not known, because earlier samplings are left out for this reader");
  });

  it("there are none of a zone that began in the years shown: that it was never sampled is told", () => {
    const overdue = (since: string): boolean => {
      const begun = { ...demo, fields: demo.fields.map((f) => ({ ...f, samplings: [], zones: f.zones.map((z) => ({ ...z, since })) })) };
      const farm = forAudience(begun, { name: "A reader", leaveOut: [], seasons: { from: 2020 } }, "2023-12-31");
      return dueOf(farm, saltings(farm)).overdue;
    };
    expect(["2019-12-31", "2020-01-01", "2023-06-01"].map(overdue)).toEqual([false, true, true]);
  });

  it("are surely too old where the whole interval is shown", () => {
    const bare = (seasons: NonNullable<AudienceRecord["seasons"]>, today: string): boolean => {
      const without = { ...demo, fields: demo.fields.map((f) => ({ ...f, samplings: [] })) };
      const farm = forAudience(without, { name: "A reader", leaveOut: [], seasons }, today);
      return dueOf(farm, saltings(farm)).overdue;
    };
    expect([bare({ from: 2020 }, "2023-12-31"), bare({ from: 2020 }, "2024-01-01"), bare({ to: 2024 }, "2024-01-01")]).toEqual([false, true, true]);
  });
});
