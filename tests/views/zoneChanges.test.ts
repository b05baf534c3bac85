import { describe, expect, it } from "vitest";
import { zoneChangeWords } from "../../src/views/zonesThen.ts";
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
