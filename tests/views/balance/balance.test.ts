import { describe, expect, it } from "vitest";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Field } from "../../../src/records/model.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { balanceView } from "../../../src/views/balance/balance.ts";
import { balanceTold } from "../../../src/views/balance/balanceTold.ts";
import { balanceCsv } from "../../../src/views/balance/balanceCsv.ts";
import type { FarmFolder } from "../../support/farmFolder.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { mergedFarm } from "../../support/mergedFarm.ts";
import { paths } from "../../support/tinyFarm.ts";

/**
 * The tiny farm with removal coefficients that are easy to work by hand: corn takes 0.2 lb of K2O a bushel.
 * 2024: 100 bu take 20 lb, nothing is spread: -20. 2025: 100 lb of potash at 60 % bring 60, 171 bu take 34.2: +25.8; sum 5.8.
 */
const removal = `  - id: removal
    kind: removal
    unit: lb per unit of yield
    rows:
      - { crop: corn, nutrient: K2O, value: 0.2, source: { reference: bulletin-1, at: Table 3 }, evidence: memory }
`;
const season2024 = "season: 2024\ncrops:\n  - { crop: corn, harvested: 2024-10-10, yield: { value: 100, unit: bu/ac } }\n";

const farm = (): FarmFolder => {
  const folder = farmFolder().change(paths.guideline, "  - id: lime\n", `${removal}  - id: lime\n`);
  return folder.write("fields/north/seasons/2024.yaml", season2024);
};
const read = (folder: FarmFolder) => {
  const { farm: found, problems } = folder.read();
  expect(problems).toEqual([]);
  const field: Field = found!.fields[0]!;
  return { farm: found!, field };
};

describe("the balance of a field", () => {
  it("is that worked by hand, zone by zone", () => {
    const { farm: whole, field } = read(farm());
    const view = balanceView(whole, field)!;
    expect(view.balances.map((b) => b.nutrient)).toEqual(["K2O"]);
    const [potash] = view.balances;
    expect(potash!.title).toBe("More potash was removed than put back on East end; more was put on than removed on West end");
    expect(potash!.rows.filter((r) => r.zone.id === "west").map(({ season, applied, removed, net, sum }) => [season, applied, removed, net, sum])).toEqual([
      [2024, "0", "20", "−20", "−20"],
      [2025, "60", "34", "+26", "+6"],
    ]);
    expect(potash!.rows.find((r) => r.zone.id === "west" && r.season === 2025)!.how).toBe("muriate of potash, 2025-04-28: 100 × 60 ÷ 100; corn: 171 bu/ac × 0.2 lb K₂O per bu");
    expect(potash!.panels.map((p) => p.verdict)).toEqual(["60 applied, 54 removed from 2024 to 2025: +6 lb/ac.", "0 applied, 54 removed from 2024 to 2025: −54 lb/ac."]);
    expect(view.none).toEqual(["No nitrogen balance, because Small gives no N removal for corn.", "No phosphate balance, because Small gives no P₂O₅ removal for corn."]);
  });

  it("is told in one row for zones of equal sums, and in rows of their own for others", () => {
    const { farm: whole, field } = read(farm());
    const apart = balanceTold(balanceView(whole, field)!);
    expect(apart.map((r) => [r.zones.map((z) => z.id), r.verdicts])).toEqual([
      [["west"], ["60 applied, 54 removed from 2024 to 2025: +6 lb/ac."]],
      [["east"], ["0 applied, 54 removed from 2024 to 2025: −54 lb/ac."]],
    ]);
    const alike = read(farm().change(paths.season, "    zones: [west]\n", ""));
    expect(balanceTold(balanceView(alike.farm, alike.field)!).map((r) => [r.zones.map((z) => z.id), r.verdicts])).toEqual([[["west", "east"], ["60 applied, 54 removed from 2024 to 2025: +6 lb/ac."]]]);
    // Alike in one nutrient and apart in the next.
    expect(balanceTold({ ...balanceView(whole, field)!, balances: [...balanceView(alike.farm, alike.field)!.balances, ...balanceView(whole, field)!.balances] })).toHaveLength(2);
  });

  it("counts a liquid recorded by the gallon by what it weighs: 25 gal of 12 lb at 15 % bring 45 lb", () => {
    const liquid = farm().change(paths.farm, "K2O: 60 }", "K2O: 15 }\n    density: { value: 12, unit: lb/gal }").change(paths.season, "value: 100, unit: lb/ac", "value: 25, unit: gal/ac");
    const { farm: whole, field } = read(liquid);
    const line = balanceView(whole, field)!.balances[0]!.rows.find((r) => r.zone.id === "west" && r.season === 2025)!;
    expect(line).toMatchObject({ applied: "45", net: "+11" });
    expect(line.how).toMatch(/^muriate of potash, 2025-04-28: 25 gal\/ac, by its density 300 lb\/ac: 300 × 15 ÷ 100; /);
  });

  it("counts the potash of wood ash, which is recorded as lime: 1,000 lb at 5 % bring 50 lb; without brings lime brings none", () => {
    const spread = (brings: string) =>
      read(farm().change(paths.farm, "stated: { cce: 90 }", `stated: { cce: 45 }${brings}`).change(paths.season, "applications:", "applications:\n  - { date: 2025-04-01, product: ground-limestone, zones: [east], rate: { value: 1000, unit: lb/ac } }"));
    const line = ({ farm: whole, field }: ReturnType<typeof read>) => balanceView(whole, field)!.balances[0]!.rows.find((r) => r.zone.id === "east" && r.season === 2025)!;
    expect(line(spread("\n    brings: { K2O: 5, P2O5: 1 }"))).toMatchObject({ applied: "50", how: expect.stringMatching(/^ground limestone, 2025-04-01: 1,000 × 5 ÷ 100; /) as string });
    expect(line(spread("")).applied).toBe("0");
  });

  it("says that each figure is rounded where as shown they do not add up: 60.6 applied, 54.2 removed, 6.4 left", () => {
    const { farm: whole, field } = read(farm().change(paths.season, "value: 100, unit: lb/ac", "value: 101, unit: lb/ac"));
    const [potash] = balanceView(whole, field)!.balances;
    expect(potash!.panels[0]!.verdict).toBe("61 applied, 54 removed from 2024 to 2025: +6 lb/ac, each rounded.");
    expect(potash!.caption).toBe("K₂O, lb/ac, by zone and season, each rounded.");
    const even = read(farm());
    expect(balanceView(even.farm, even.field)!.balances[0]!.caption).toBe("K₂O, lb/ac, by zone and season.");
  });

  it("names every coefficient with its publication and its grade", () => {
    const { farm: whole, field } = read(farm());
    expect(balanceView(whole, field)!.coefficients).toMatchObject([{ crop: "corn", nutrient: "K₂O", value: "0.2 lb per bu", moisture: "not stated", source: { text: "A publisher, A bulletin, Table 3" }, evidence: { grade: "memory" } }]);
  });

  it("says where a coefficient is only remembered", () => {
    const { farm: whole, field } = read(farm());
    expect(balanceView(whole, field)!.notes).toContain("Some coefficients are not yet checked against the publication; their table says which.");
  });

  it("draws what the rows say, the line ending where the sum does", () => {
    const folder = farm().write("fields/north/seasons/2026.yaml", "season: 2026\ncrops:\n  - { crop: corn }\n");
    const { farm: whole, field } = read(folder);
    const [potash] = balanceView(whole, field)!.balances;
    const west = potash!.panels[0]!;
    expect(west.verdict).toBe("60 applied, 54 removed from 2024 to 2025: +6 lb/ac. The sum is incomplete since 2026: the yield of corn in 2026 is not recorded.");
    expect(west.drawing).toMatchObject({ dots: { length: 2 }, applied: { length: 1 }, removed: { length: 2 }, unknown: { length: 1 } });
    expect(potash!.rows.at(-1)).toMatchObject({ removed: "not known", net: "not known", sum: "not known" });
    const { top, bottom } = west.drawing.plot;
    for (const bar of [...west.drawing.applied, ...west.drawing.removed]) {
      expect(bar.y).toBeGreaterThanOrEqual(top - 0.1);
      expect(bar.y + bar.height).toBeLessThanOrEqual(bottom + 0.1);
    }
  });

  it("has none without a season", () => {
    const { farm: whole, field } = read(farmFolder().remove(paths.season));
    expect(balanceView(whole, field)).toBeUndefined();
  });
});

describe("nitrogen of a rotation with a legume", () => {
  /**
   * Corn takes 0.6 to 1.0 lb of nitrogen a bushel, soybean 3.8. 2024: 100 bu of corn take 80 (60 to 100), nothing is spread: -80.
   * 2025: 171 bu take 136.8 (102.6 to 171): -216.8, between -271 and -162.6. 2026: 50 bu of soybean take 190, and the sum stays.
   */
  const nitrogen = removal.replace("crop: corn, nutrient: K2O, value: 0.2", "crop: corn, nutrient: N, value: 0.6, to: 1") + "      - { crop: soybean, nutrient: N, value: 3.8, source: { reference: bulletin-1, at: Table 3 }, evidence: read }\n";
  const rotation = (): FarmFolder =>
    farmFolder()
      .change(paths.guideline, "  - id: lime\n", `${nitrogen}  - id: lime\n`)
      .write("fields/north/seasons/2024.yaml", season2024)
      .write("fields/north/seasons/2026.yaml", "season: 2026\ncrops:\n  - { crop: soybean, harvested: 2026-10-01, yield: { value: 50, unit: bu/ac } }\n");

  it("says of which seasons nothing is summed, and calls one season not every season", () => {
    const verdict = (folder: FarmFolder): string => {
      const { farm: whole, field } = read(folder);
      return balanceView(whole, field)!.balances.find((b) => b.nutrient === "N")!.panels[0]!.verdict;
    };
    const crops = (year: number, west: string, east = "corn"): string => `season: ${year}\ncrops:\n${[["west", west], ["east", east]].map(([zone, crop]) => `  - { crop: ${crop}, zones: [${zone}], yield: { value: 50, unit: bu/ac } }\n`).join("")}`;
    const first = rotation().write("fields/north/seasons/2024.yaml", crops(2024, "soybean")).write(paths.season, crops(2025, "wheat"));
    expect(verdict(first)).toBe("Nothing is summed, because the season of 2024 had soybean. The sum is incomplete since 2025: Small gives no N removal for wheat.");
    const two = rotation().write("fields/north/seasons/2024.yaml", crops(2024, "soybean")).write(paths.season, crops(2025, "soybean")).write("fields/north/seasons/2026.yaml", crops(2026, "wheat"));
    expect(verdict(two)).toBe("Nothing is summed, because the seasons from 2024 to 2025 had soybean. The sum is incomplete since 2026: Small gives no N removal for wheat.");
    const all = rotation().write("fields/north/seasons/2024.yaml", crops(2024, "soybean")).write(paths.season, crops(2025, "soybean")).write("fields/north/seasons/2026.yaml", crops(2026, "soybean"));
    expect(verdict(all)).toBe("Nothing is summed, because every season had soybean.");
  });

  it("is not told to a reader from whom nitrogen is kept, and he is told so", () => {
    const { farm: whole, field } = read(rotation());
    const farmShown = forAudience(whole, { name: "A reader", leaveOut: ["nitrogen"] });
    const { balances, none, coefficients } = balanceView(farmShown, farmShown.fields[0]!)!;
    expect(balances.concat(balanceView(whole, field)!.balances).map((b) => b.nutrient)).toEqual(["N"]);
    expect(coefficients).toEqual([]);
    expect(none.filter((words) => words.includes("nitrogen"))).toEqual(["The balance of nitrogen is left out for this reader."]);
  });

  it("passes over the legume, and says so in the title, the verdict, the table and the notes", () => {
    const { farm: whole, field } = read(rotation());
    const [balance] = balanceView(whole, field)!.balances;
    expect(balance!.title).toBe("Seasons of soybean aside, more nitrogen was removed than put back");
    expect(balance!.panels[0]!.verdict).toBe("0 applied, 217 removed from 2024 to 2025, the seasons of soybean left out: −217 lb/ac, and between −271 and −163 by the ends of the printed ranges.");
    expect(balance!.rows.filter((r) => r.zone.id === "west").map(({ season, removed: taken, net, sum }) => [season, taken, net, sum])).toEqual([
      [2024, "80 (60 to 100)", "−80", "−80"],
      [2025, "137 (103 to 171)", "−137", "−217"],
      [2026, "190", "left out", "−217"],
    ]);
    expect(balance!.panels[0]!.drawing).toMatchObject({ dots: { length: 2 }, removed: { length: 3 }, reach: expect.anything() as object });
    expect(balance!.notes.join(" ")).toContain("The nitrogen sum passes over the seasons of soybean: part of their nitrogen came from the air, and nobody measured how much.");
    expect(balance!.notes.join(" ")).toContain("Also left out: nitrogen that rain brings, that the soil itself releases, and that is lost to air and water.");
  });

  it("prints the range of a coefficient, and both ends in the download", () => {
    const { farm: whole, field } = read(rotation());
    expect(balanceView(whole, field)!.coefficients.map((c) => c.value)).toEqual(["0.6 to 1 lb per bu", "3.8 lb per bu"]);
    const lines = balanceCsv(whole, field).split("\r\n");
    expect(lines.find((l) => l.startsWith("north,west,N,2024"))).toContain(",corn,0,80,60,100,-80,-80,2024,");
    expect(lines.find((l) => l.startsWith("north,west,N,2026"))).toContain(',soybean,0,190,190,190,,-216.8,2024,"soybean took part of its nitrogen from the air, and how much was not measured",');
  });

  it("does not say which way, where the ends of the range say different things", () => {
    // 400 lb with 55 percent bring 220 on the west end: +3 by the middle, -51 and +57 by the ends.
    const folder = rotation().change(paths.farm, "N: 0, P2O5: 0, K2O: 60", "N: 55, P2O5: 0, K2O: 0").change(paths.season, "rate: { value: 100, unit: lb/ac }", "rate: { value: 400, unit: lb/ac }");
    const { farm: fed, field: north } = read(folder);
    expect(balanceView(fed, north)!.balances[0]!.title).toBe("Seasons of soybean aside, more nitrogen was removed than put back on East end; on West end it cannot be told");
  });
});

it("tells a reader who is not shown yields that they are left out, and not that nobody recorded them", () => {
  const { farm: whole } = read(farm());
  const excerpt = forAudience(whole, { name: "A reader", leaveOut: ["yields"] });
  expect(balanceCsv(excerpt, excerpt.fields[0]!)).toContain(",2024,it is incomplete since 2024: the yields are left out for this reader,");
  expect(balanceCsv(excerpt, excerpt.fields[0]!)).not.toContain("not recorded");
});

describe("beside the soil test", () => {
  // West end: K 96 in October 2024 and 104 in October 2025; in between 60 lb in and 34 out: +26. East end: 131, then 138; 34 out.
  const beside = (least: number | undefined): (string | undefined)[] => {
    const { farm: whole, field } = read(farm());
    return balanceView(whole, field, () => least)!.balances[0]!.panels.map((p) => p.beside);
  };

  it("says where the two agree and where they do not", () =>
    expect(beside(5)).toEqual([
      "More potash went in than out from October 2024 to October 2025 (26 lb/ac), and the potassium test rose from 96 to 104 ppm: the two agree.",
      "More potash went out than in from October 2024 to October 2025 (34 lb/ac), yet the potassium test rose from 131 to 138 ppm: the two disagree, which the balance alone does not explain.",
    ]));

  it("cannot tell where the change is within the noise", () =>
    expect(beside(9)[0]).toBe("More potash went in than out from October 2024 to October 2025 (26 lb/ac). Whether the potassium test agrees cannot be told, because the change of the test is within its noise: 96 in October 2024, 104 ppm in October 2025."));

  it("cannot tell where one of the results is only a bound, or as much went in as out", () => {
    const ofWest = (folder: FarmFolder): string | undefined => {
      const { farm: whole, field } = read(folder);
      return balanceView(whole, field, () => 1)!.balances[0]!.panels[0]!.beside;
    };
    expect(ofWest(farm().change(paths.sampling, "K: 104", 'K: { value: 104, qualifier: ">" }'))).toMatch(/cannot be told, because the laboratory gives only a bound for one of the two results: 96 in October 2024, >\s104 ppm in October 2025\.$/);
    // 300 bu of corn at 0.2 lb take the 60 lb that were put on; 301 leave a balance of less than half a pound, shown as none.
    for (const bushels of ["300", "301", "299"])
      expect(ofWest(farm().change(paths.season, "value: 171", `value: ${bushels}`)), bushels).toBe("As much potash went in as out from October 2024 to October 2025. Whether the potassium test agrees cannot be told, because a balance of nothing has no direction: 96 in October 2024, 104 ppm in October 2025.");
  });

  it("cannot tell where the noise is not known", () => expect(beside(undefined)[0]).toMatch(/cannot be told, because the noise between two samplings is not known here/));

  it("cannot tell across a change of method", () => {
    const folder = farm().change(paths.sampling, "package: basic\n", "package: basic\nmeasured:\n  K: { method: ammoniumAcetate, unit: ppm }\n");
    const { farm: whole, field } = read(folder);
    expect(balanceView(whole, field, () => 1)!.balances[0]!.panels[0]!.beside).toBe(
      "Whether it agrees with the potassium test cannot be told, because the method changed from Mehlich-3, ICP to ammonium acetate: 104 in October 2025 stands alone.",
    );
  });
});

describe("the download", () => {
  it("has units in its heads, leaves empty what is not known and says why", () => {
    const folder = farm().write("fields/north/seasons/2026.yaml", "season: 2026\ncrops:\n  - { crop: corn }\n");
    const { farm: whole, field } = read(folder);
    const lines = balanceCsv(whole, field).split("\r\n");
    expect(lines[0]).toBe("field,zone,nutrient,season,crops,applied_lb_ac,removed_lb_ac,removed_least_lb_ac,removed_most_lb_ac,net_lb_ac,sum_lb_ac,sum_since,not_known_because,coefficients,evidence,record");
    expect(lines).toContain('north,west,K2O,2025,corn,60,34.2,,,25.8,5.8,2024,,"A publisher, A bulletin",memory,fields/north/seasons/2025.yaml');
    expect(lines).toContain("north,west,K2O,2026,corn,0,,,,,,2024,it is incomplete since 2026: the yield of corn in 2026 is not recorded,,,fields/north/seasons/2026.yaml");
    expect(lines.filter((l) => l !== "")).toHaveLength(1 + 3 * 2 * 3);
  });

  it("says of a zone that was drawn anew since when its own sum runs, which is not the field's first season", () => {
    // Long piece is a zone from October 2023: its first harvest is of 2024, the old zones' of 2023.
    const { farm: whole, field } = read(mergedFarm().change(paths.guideline, "  - id: lime\n", `${removal}  - id: lime\n`));
    const rows = balanceCsv(whole, field).trimEnd().split("\r\n").slice(1).map((line) => line.split(","));
    expect(new Set(rows.map((cells) => `${cells[1]} ${cells[3]} ${cells[11]}`))).toEqual(new Set(["west 2023 2023", "east 2023 2023", "long 2024 2024"]));
    // Nor does the table put one year over them all.
    const { farm: one, field: plain } = read(farm());
    expect([...balanceView(whole, field)!.balances, ...balanceView(one, plain)!.balances].map((b) => b.since)).toEqual([undefined, 2024]);
  });

  it("names the publication of each season's own crop, and why a season has no difference though the sum goes on", () => {
    const wheat = "      - { crop: wheat, nutrient: K2O, value: 0.3, source: common-practice, evidence: memory }\n";
    const folder = farm().change(paths.guideline, "  - id: lime\n", `${removal}${wheat}  - id: lime\n`);
    const { farm: whole, field } = read(folder.write("fields/north/seasons/2024.yaml", season2024.replace("crop: corn", "crop: wheat")));
    const ofWest = balanceCsv(whole, field).split("\r\n").filter((line) => line.startsWith("north,west,K2O"));
    // 100 bu of wheat at 0.3 lb.
    expect(ofWest[0]).toBe("north,west,K2O,2024,wheat,0,30,,,-30,-30,2024,,common practice,memory,fields/north/seasons/2024.yaml");
    expect(ofWest[1]).toContain(',25.8,-4.2,2024,,"A publisher, A bulletin",memory,');
    const demo = readFarm({ content: library, library }).farm!;
    // 52 bu of soybean at 3.7 to 4.0 lb N, the middle of which is 3.85.
    expect(balanceCsv(demo, demo.fields[0]!).split("\r\n")[1]).toMatch(/^causeway,knoll,N,2014,soybean,0,200\.2,192\.4,208,,0,2014,"soybean took part of its nitrogen from the air, and how much was not measured",/);
  });

  it("counts in kilograms and hectares where the farm does", () => {
    const { farm: whole, field } = read(farm().change(paths.farm, "units: us", "units: metric"));
    const lines = balanceCsv(whole, field).split("\r\n");
    expect(lines[0]).toContain("applied_kg_ha,removed_kg_ha");
    // 60 lb/ac x 1.12085 = 67.3 kg/ha; 34.2 lb/ac = 38.3.
    expect(lines.find((l) => l.startsWith("north,west,K2O,2025"))).toContain(",67.3,38.3,,,28.9,");
  });
});
