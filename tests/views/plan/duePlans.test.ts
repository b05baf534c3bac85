import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { noDay } from "../../../src/interpretation/noDay.ts";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Farm, Field } from "../../../src/records/model.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { calendarView, nextSamplingsOf } from "../../../src/views/calendar/calendar.ts";
import { duePlans } from "../../../src/views/plan/duePlans.ts";
import { duePlanView } from "../../../src/views/plan/plan.ts";
import { planSampling } from "../../../src/views/plan/planComposites.ts";
import { planLabelsCsv } from "../../../src/views/plan/planFiles.ts";
import { planLinks } from "../../../src/views/plan/planLinks.ts";
import { allPaths } from "../../../src/views/site/routes.ts";
import { sitePlanFiles } from "../../../src/views/plan/sitePlanFiles.ts";

const library = join(installation, "content");
const demo = readFarm({ content: library, library }).farm!;
const on = (today: string): Farm => ({ ...demo, today });
const field = (id: string): Field => demo.fields.find((f) => f.id === id)!;
const told = (farm: Farm): string[] => farm.fields.flatMap((f) => duePlans(farm, f).map(({ purpose, request }) => `${f.id} ${purpose} ${request.date}${request.season ? ` ${request.season}` : ""} ${request.zones!.join("+")}`));

describe("plans that are due", () => {
  it("are those of what is overdue, and of this half year and the next", () => {
    // Netloft was due in October 2025 and has corn in 2026; nothing else is asked for before spring 2027.
    expect(told(demo)).toEqual(["netloft routine 2025-10-28 upper+lower", "netloft nitrate 2026-06-01 June 2026 upper+lower"]);
  });

  it("take the day of the last sampling for the season to come, and only the zones that are asked for", () => {
    // The last check was on 13 April; on the day that the site speaks from, lime is called for on two of three zones.
    expect(told(on("2026-11-01"))).toEqual(["causeway phCheck 2027-04-13 spring 2027 knoll+outwash", "netloft routine 2026-11-01 upper+lower", "saltings nitrate 2027-06-01 June 2027 west-lea+east-lea"]);
    // Within June it is the day itself, and then it is over.
    const saltings = (today: string): string[] => told(on(today)).filter((t) => t.startsWith("saltings nitrate"));
    expect(saltings("2027-06-12")).toEqual(["saltings nitrate 2027-06-12 west-lea+east-lea"]);
    expect(saltings("2027-07-01")).toEqual([]);
  });

  it("of a winter stand for the day of the last one, in the year that it falls in", () => {
    const netloft = field("netloft");
    const last = netloft.samplings.findLast((s) => s.purpose === "routine")!;
    const routine = (date: string): string[] => told({ ...on("2025-11-15"), fields: [{ ...netloft, plan: [], samplings: [{ ...last, id: date, date }] }] });
    expect(routine("2022-01-08")).toEqual(["netloft routine 2026-01-08 winter 2025–26 upper+lower"]);
    expect(routine("2021-12-19")).toEqual(["netloft routine 2025-12-19 winter 2025–26 upper+lower"]);
  });

  it("of mineral nitrogen stand for early spring, or the day of the last such test, and never for that of a full sampling in autumn", () => {
    const netloft = field("netloft");
    const german = { ...netloft, guidelines: [demo.allGuidelines.get("de-ordinance-2017")!], plan: [{ ...netloft.plan[0]!, season: 2026, crop: "winterWheat" as const }] };
    const nitrate = (f: Field): string[] => told({ ...on("2025-11-15"), fields: [f] }).filter((t) => t.includes("nitrate"));
    expect(nitrate(german)).toEqual(["netloft nitrate 2026-03-01 spring 2026 upper+lower"]);
    const of = (date: string) => ({ ...netloft.samplings.at(-1)!, id: date, date, purpose: "nitrate" as const });
    expect(nitrate({ ...german, samplings: [of("2025-02-18"), of("2025-06-10")] })).toEqual(["netloft nitrate 2026-02-18 spring 2026 upper+lower"]);
    // A June test of another crop is another walk.
    const two = { ...german, guidelines: [...german.guidelines, demo.allGuidelines.get("us-iowa-nitrate")!], plan: [...german.plan, { ...netloft.plan[0]!, season: 2026, crop: "corn" as const, zones: ["upper"] }] };
    expect(nitrate(two)).toEqual(["netloft nitrate 2026-03-01 spring 2026 upper+lower"]);
  });

  it("are none while the records hold no day to speak from", () => {
    const bare = { ...demo, today: noDay, fields: [{ ...field("netloft"), samplings: [], seasons: [], recommendations: [] }] };
    expect(told(bare)).toEqual([]);
    expect(calendarView(bare)).toMatchObject({ undated: [{ overdue: true }] });
  });

  it("are led to from no page of an excerpt, which has none", () => {
    for (const [name, audience] of demo.audiences) {
      const farm = forAudience(demo, audience);
      const { seasons, undated } = calendarView(farm);
      expect(farm.fields.flatMap((f) => duePlans(farm, f)), name).toEqual([]);
      expect([...seasons.flatMap((s) => s.entries), ...undated].filter((e) => e.due), name).toEqual([]);
      expect(planLinks(farm), name).toEqual([]);
    }
  });

  it("count the bags that the calendar counts, on any day", () => {
    for (const farm of [demo, on("2026-11-01"), on("2029-09-01")])
      for (const f of farm.fields)
        for (const { purpose, request } of duePlans(farm, f)) {
          const next = nextSamplingsOf(farm, f).find((n) => n.purpose === purpose)!;
          expect(planSampling(farm, f, request).bags.length).toBe(next.bags);
        }
  });

  it("of a nitrate test say why and how tall, for the crop's zones alone", () => {
    const farm = on("2026-11-01");
    const due = duePlans(farm, field("saltings")).find((d) => d.purpose === "nitrate")!;
    const view = duePlanView(farm, { ...due, request: { ...due.request, zones: ["east-lea"] } });
    expect(view.title).toBe("Nitrate sampling plan for Saltings");
    expect(view.lede).toBe("Take 24 cores from East lea, 0 to 12 in deep, into one bag.");
    // Iowa: 16 to 24, and at least 24 where more than 50 lb N was banded as ammonia, which no record tells.
    expect(view.notes[0]).toBe("East lea: no record tells whether anhydrous ammonia was banded, so the cores are as many as Iowa late-spring nitrate asks for where it was.");
    const pounds = (value: number) => {
      const [{ ...ammonia }] = demo.fields.flatMap((f) => f.seasons.flatMap((s) => s.applications.filter((a) => a.product.fertilizer)));
      const fall = { ...ammonia, date: "2026-11-02", zones: ["east-lea"], rate: { value, unit: "lb/ac" as const }, product: { ...ammonia.product, fertilizer: { ...ammonia.product.fertilizer!, analysis: { N: 82, P2O5: 0, K2O: 0 } } } };
      const banded = { ...due.field, seasons: [...due.field.seasons, { ...due.field.seasons[0]!, season: 2027, crops: [], applications: [fall] }] };
      return duePlanView({ ...farm, fields: [banded] }, { ...due, field: banded, request: { ...due.request, zones: ["east-lea"] } });
    };
    // 62 x 0.82 is 51 lb, 60 x 0.82 is 49 lb; more may be banded until June.
    expect([pounds(62).lede, pounds(62).notes.join(" ")]).toEqual([view.lede, expect.not.stringContaining("ammonia")]);
    expect(pounds(60).notes[0]).toBe(view.notes[0]);
    expect(view.why).toMatch(/^A nitrate sampling, planned for June 2027\. Corn is planned, and .* reads nitrate for it\. Not before it stands 6 in, nor after 12 in/);
    expect(view.facts).toContainEqual({ term: "Planned for", value: "June 2027" });
    expect(view.plan.bags.map((b) => b.label)).toEqual(["SA-B-2706-N1"]);
    // No day is known, and none is pretended in the list for the laboratory.
    expect(planLabelsCsv(farm, field("saltings"), view.plan).split("\r\n")[1]).toMatch(/^SA-B-2706-N1,Skerry Farm,Saltings,East lea,,nitrate,24,0,12,/);
  });

  it("have a page and a list each, and positions only where the owner publishes the location", () => {
    const plans = (farm: Farm): string[] => [...allPaths(farm).keys()].filter((p) => p.includes("plan")).sort();
    const lists = ["data/netloft-plan-labels.csv", "data/netloft-plan-nitrate-labels.csv"];
    const pages = ["fields/netloft/plan-nitrate.html", "fields/netloft/plan.html"];
    const positions = ["data/netloft-plan-nitrate.geojson", "data/netloft-plan-nitrate.gpx", "data/netloft-plan.geojson", "data/netloft-plan.gpx"];
    const [located, hidden] = [true, false].map((location): Farm => ({ ...demo, publish: { ...demo.publish, location } }));
    expect(plans(hidden!)).toEqual([...lists, ...pages]);
    expect(plans(located!)).toEqual([...lists, ...positions, ...pages].sort());
    expect([located!, hidden!].map((farm) => duePlanView(farm, duePlans(farm, field("netloft"))[0]!).located)).toEqual([true, false]);
    for (const farm of [located!, hidden!]) expect(sitePlanFiles(farm).map((f) => f.path).sort()).toEqual(plans(farm).filter((p) => p.startsWith("data/")));
    // As the Internet Assigned Numbers Authority lists them (RFC 4180, RFC 7946); GPX as its own makers' page has it, from memory.
    const types: Partial<Record<string, string>> = { csv: "text/csv; charset=utf-8", geojson: "application/geo+json", gpx: "application/gpx+xml" };
    for (const { path, type } of sitePlanFiles(located!)) expect(type).toBe(types[path.split(".").at(-1)!]);
    for (const { content, path } of sitePlanFiles(located!)) expect(content()).toContain(path.endsWith("labels.csv") ? "label,farm" : path.includes("nitrate") ? "NE-A-2606-N1" : "NE-A-2510-1");
  });

  it("are linked by the calendar, and from a page that says what is due", () => {
    expect(calendarView(demo).seasons.flatMap((s) => s.entries.filter((e) => e.due).map((e) => `${s.label}: ${e.field.id} ${e.purpose}`))).toEqual(["Autumn 2025: netloft routine", "June 2026: netloft nitrate"]);
    expect(planLinks(demo)).toEqual([
      { text: "Sampling plan for Netloft, 28 October 2025", path: "fields/netloft/plan.html" },
      { text: "Nitrate sampling plan for Netloft, June 2026", path: "fields/netloft/plan-nitrate.html" },
    ]);
    const many = { ...demo, fields: Array.from({ length: 9 }, (_, i) => ({ ...field("netloft"), id: `netloft-${i}` })) };
    expect(planLinks(many).map((l) => l.text).slice(-1)).toEqual(["The sampling calendar, with twelve more plans"]);
  });
});
