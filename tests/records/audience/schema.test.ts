import { describe, expect, it } from "vitest";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";

const farmWith = (audience: string): string[] => linesAfter("farm.yaml", "currency: USD\n", `currency: USD\naudiences:\n${audience}`);

describe("audiences in farm.yaml", () => {
  it("are read", () => {
    const { farm, problems } = farmFolder()
      .change("farm.yaml", "currency: USD\n", "currency: USD\naudiences:\n  landlord: { name: The landlord, fields: [north], leaveOut: [costs], seasons: { from: 2018 } }\n")
      .read();
    expect(problems).toEqual([]);
    expect([...farm!.audiences]).toEqual([["landlord", { name: "The landlord", fields: ["north"], leaveOut: ["costs"], seasons: { from: 2018 } }]]);
    expect(farm!.withheld).toBeUndefined();
  });

  it.each(["{ to: 2019 }", "{ from: 2019, to: 2019 }", "{ from: 2018, to: 2020 }"])("may be shown the years %s", (years) =>
    expect(farmWith(`  landlord: { name: The landlord, leaveOut: [], seasons: ${years} }\n`)).toEqual([]));

  it.each([
    ["  landlord: { name: The landlord, fields: [noth], leaveOut: [] }\n", 'farm.yaml:5:44: audiences.landlord.fields[1]: field "noth" is not in fields; did you mean north?'],
    ["  landlord: { name: The landlord, leaveOut: [cost] }\n", 'farm.yaml:5:46: audiences.landlord.leaveOut[1]: the text "cost" is not known; did you mean costs?'],
    ["  landlord: { name: The landlord, leavOut: [] }\n", "farm.yaml:5:35: audiences.landlord.leavOut: is not a key known here; did you mean leaveOut?"],
    ["  landlord: { name: The landlord }\n", "farm.yaml:5:13: audiences.landlord.leaveOut: is missing; must be a list"],
    ["  landlord: { name: The landlord, leaveOut: [], tenure: rentd }\n", 'farm.yaml:5:57: audiences.landlord.tenure: the text "rentd" is not known; did you mean rented?'],
    ["  landlord: { name: The landlord, fields: [north], tenure: rented, leaveOut: [] }\n", "farm.yaml:5:60: audiences.landlord.tenure: chooses fields, and so does fields; keep one"],
    ["  landlord: { name: The landlord, leaveOut: [], seasons: {} }\n", "farm.yaml:5:58: audiences.landlord.seasons: needs from, to or both; leave it out to show every year"],
    ["  landlord: { name: The landlord, leaveOut: [], seasons: { from: 2020, to: 2019 } }\n", "farm.yaml:5:76: audiences.landlord.seasons.to: is before from"],
    ["  The Bank: { name: The bank, leaveOut: [] }\n", "farm.yaml:5:3: audiences.The Bank: must be lower-case letters, digits and single hyphens, such as north-meadow"],
  ])("refuse %s", (audience, line) => {
    expect(farmWith(audience)).toContain(line);
  });
});
