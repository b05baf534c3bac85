import { describe, expect, it } from "vitest";
import { comingChangeWords, zoneChangeWords } from "../../src/views/zonesThen.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { paths } from "../support/tinyFarm.ts";

const told = (...zones: string[]): string => {
  const { farm } = farmFolder().remove("fields/north").write(paths.field, `name: North\nzones:\n${zones.map((z, i) => `  ${z.split(":")[0]!}: { letter: ${"ABCDEF"[i]!}, name: Zone ${z.split(":")[0]!}${z.slice(z.indexOf(":") + 1)} }\n`).join("")}`).write("fields/north/seasons/2021.yaml", "season: 2021\ncrops: [{ crop: corn, harvested: 2021-09-20 }]\n").read();
  return zoneChangeWords(farm!.fields[0]!);
};

describe("a change of zones in words", () => {
  it("is a split, a merger or a new drawing", () => {
    expect(told("a:, until: 2020-09-01", "b:, since: 2020-09-01, formerly: [a]", "c:, since: 2020-09-01, formerly: [a]")).toBe("Zone a was split into Zone b and Zone c, on 1 September 2020.");
    expect(told("a:, until: 2020-09-01", "b:, until: 2020-09-01", "c:, since: 2020-09-01, formerly: [b, a]")).toBe("Zone b and Zone a were merged into Zone c, on 1 September 2020.");
    expect(told("a:, until: 2020-09-01", "b:, until: 2020-09-01", "c:, since: 2020-09-01, formerly: [a, b]", "d:, since: 2020-09-01, formerly: [b, a]")).toBe("Zone a and Zone b were drawn anew as Zone c and Zone d, on 1 September 2020.");
    expect(told("a:, until: 2020-09-01", "b:, since: 2020-09-01, formerly: [a]")).toBe("Zone b took the place of Zone a, on 1 September 2020.");
  });

  it("is neither where a part of the old ground went to another zone", () => {
    expect(told("a:, until: 2020-09-01", "b:, until: 2020-09-01", "c:, since: 2020-09-01, formerly: [a, b]", "d:, since: 2020-09-01, formerly: [b]")).toBe("Zone c became a zone, formerly Zone a and Zone b, on 1 September 2020. Zone d became a zone, formerly Zone b, on 1 September 2020.");
    expect(told("a:", "b:, since: 2020-09-01")).toBe("Zone b became a zone, on 1 September 2020.");
  });
});

describe("a change of zones to come", () => {
  const coming = (...zones: string[]): string => {
    const { farm } = farmFolder().write(paths.field, `name: North\nzones:\n  west: { letter: A, name: West, until: 2026-03-01 }\n  east: { letter: B, name: East${zones[0]!.includes("east") ? ", until: 2026-03-01" : ""} }\n${zones.map((zone, i) => `  ${zone}`.replace("LETTER", "CDE"[i]!)).join("\n")}\n`).remove(paths.zones).read({ today: "2025-12-01" });
    return comingChangeWords(farm!.fields[0]!);
  };

  it("is told with its day, and once for zones that begin together in one place", () => {
    expect(coming("long: { letter: LETTER, name: Long, since: 2026-03-01, formerly: [west, east] }")).toBe("From 1 March 2026 on, Long is to take the place of West and East.");
    expect(coming("top: { letter: LETTER, name: Top, since: 2026-03-01, formerly: [west] }", "foot: { letter: LETTER, name: Foot, since: 2026-03-01, formerly: [west] }")).toBe("From 1 March 2026 on, Top and Foot are to take the place of West.");
    expect(coming("top: { letter: LETTER, name: Top, since: 2026-03-01 }")).toBe("From 1 March 2026 on, Top is to be a zone.");
    expect(coming("top: { letter: LETTER, name: Top, since: 2026-03-01, formerly: [west] }", "new: { letter: LETTER, name: New, since: 2026-04-01 }")).toBe("From 1 March 2026 on, Top is to take the place of West. From 1 April 2026 on, New is to be a zone.");
  });
});
