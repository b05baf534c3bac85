import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { adviceParts, advicePath } from "../../../src/views/advice/advicePages.ts";
import { advicePage } from "../../../src/views/field/fieldAdvice.ts";
import { fieldView } from "../../../src/views/field/field.ts";
import { mostOfFieldAdvice, mostOfPage, zoneAdviceWeight } from "../../../src/views/pageWeight.ts";
import { planView } from "../../../src/views/plan/plan.ts";
import { samplingView } from "../../../src/views/sampling/samplingView.ts";
import { seasonGaps } from "../../../src/views/season/seasonGaps.ts";
import { allPaths } from "../../../src/views/site/routes.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { generateFarm } from "../../support/generateFarm.ts";

const farmOf = (zones: number) => {
  const folder = farmFolder(generateFarm({ seed: 3, fields: 1, zones, samplings: 1 }));
  const { farm, problems } = folder.read({ library: join(installation, "content") });
  expect(problems.filter((p) => p.severity === "error")).toEqual([]);
  return farm!;
};

const most = Math.floor(mostOfFieldAdvice / zoneAdviceWeight);
const aPage = Math.floor(mostOfPage / zoneAdviceWeight);

describe("a field sampled in a grid of cells", () => {
  const gridded = () => {
    const farm = farmOf(aPage + 1);
    return { farm, field: farm.fields[0]! };
  };

  it("has letters beyond Z, one or two to a zone", () => {
    const { field } = gridded();
    expect(field.zones.map((z) => z.letter).filter((_, i) => [0, 25, 26, 51, 52].includes(i))).toEqual(["A", "Z", "AA", "AZ", "BA"]);
    expect(new Set(field.zones.map((z) => z.letter)).size).toBe(aPage + 1);
  });

  it("shows every rate in one table, each leading to the page of its working, and says whose it is and how far it was checked", () => {
    const { farm, field } = gridded();
    const view = fieldView(farm, field);
    expect(view.advice).toEqual([]);
    expect(view.rates!.subjects).toEqual(["Lime", "Phosphate (P₂O₅)", "Potash (K₂O)"]);
    expect(view.rates!.rows.map((r) => r.zone)).toEqual(field.zones);
    const pages = [1, 2].map((part) => advicePage(farm, field, part));
    expect(pages.map((p) => p.advice.length)).toEqual([aPage, 1]);
    expect(pages.map((p) => [p.title, p.lede])).toEqual([
      ["Advice for Made-up Field 1, page 1 of 2", `Strip 1 from the west to Strip ${aPage} from the west, of ${aPage + 1} zones: every rate with its working.`],
      ["Advice for Made-up Field 1, page 2 of 2", `Strip ${aPage + 1} from the west, of ${aPage + 1} zones: every rate with its working.`],
    ]);
    const worked = pages.flatMap(({ advice }, i) => advice.flatMap((a) => a.rows.map((r): [string, typeof r] => [`fields/field-0001/advice${i === 0 ? "" : "-2"}.html#${r.id}`, r])));
    for (const { path, cells } of view.rates!.rows)
      for (const cell of cells) {
        const row = new Map(worked).get(`${path}#${cell!.anchor}`)!;
        expect(cell!.words).toBe(row.none === undefined ? `${row.value}\u00a0${row.unit}` : "no\u00a0rate");
      }
    // Of the soils without a rate of lime nothing is cited.
    expect(view.rates!.by.map((b) => [b.subject, b.guideline.short, b.evidence.grade])).toEqual(expect.arrayContaining([["Potash (K₂O)", "Tri-State 2020", "memory"]]));
    expect(seasonGaps(farm).flatMap((g) => g.places).every((p) => p.path === advicePath(field, field.zones.find((z) => p.anchor.startsWith(`${z.id}-`))!))).toBe(true);
  });

  it("claims those pages", () => expect([...allPaths(gridded().farm).keys()].filter((p) => p.includes("/advice"))).toEqual(["fields/field-0001/advice.html", "fields/field-0001/advice-2.html"]));

  it("lists the results of a sampling bag by bag, the tests dealt over tables that fit a sheet", () => {
    const { farm, field } = gridded();
    const { bags, results, lists } = samplingView(farm, field, field.samplings[0]!);
    expect(bags.length).toBeGreaterThan(aPage);
    expect(lists.flat()).toEqual(results);
    expect(lists.map((l) => l.length)).toEqual([5, 5]);
  });
});

it("a field of few zones has its advice on its own page, and its bags side by side", () => {
  const farm = farmOf(8);
  const field = farm.fields[0]!;
  expect(fieldView(farm, field)).toMatchObject({ rates: undefined, advice: { length: 8 } });
  expect(advicePath(field, field.zones[7]!)).toBe("fields/field-0001.html");
  const { lists, bags } = samplingView(farm, field, field.samplings[0]!);
  expect([bags.length > 8, lists.length > 0]).toEqual([bags.length > 8, bags.length > 8]);
  expect([most, most + 1].map((zones) => adviceParts({ ...field, zones: Array.from({ length: zones }, () => field.zones[0]!) }).length)).toEqual([0, 1]);
});

it("draws every core of a plan as long as they can be told apart, and then where each bag's walk begins", () => {
  const plan = (zones: number) => {
    const farm = farmOf(zones);
    return planView(farm, farm.fields[0]!, { purpose: "routine", date: "2026-10-10", seed: 1 });
  };
  const [few, many] = [plan(8), plan(30)];
  expect([few.map!.whole, many.map!.whole]).toEqual([true, false]);
  expect(few.map!.walks.flatMap((w) => w.cores).length).toBeGreaterThan(8 * 10);
  expect(many.map!.walks.flatMap((w) => w.cores.map((c) => c.name))).toEqual(many.plan.bags.map((b) => b.mark));
  // None is lost: the positions name them all.
  expect(many.positions.flatMap((p) => p.cores).length).toBeGreaterThan(400);
  const [first] = plan(30).plan.bags;
  expect(many.map!.walks[0]!.label).toBe(first!.label);
});
