import { describe, expect, it } from "vitest";
import { aboutSheet } from "../../../src/views/site/aboutSheet.ts";
import { dataset } from "../../../src/views/site/metadata.ts";
import { seasonView } from "../../../src/views/season/season.ts";
import { farmFolder } from "../../support/farmFolder.ts";

const tiny = () => farmFolder().read().farm!;
const printed = (text: string): string => `@page{@bottom-left{content:"${text}";width:82%}@bottom-right{content:counter(page) " of " counter(pages)}}`;

describe("where a sheet comes from", () => {
  it("names farm, page, day and address, and the newest sampling of all fields or of one", () => {
    const farm = tiny();
    const south = { ...farm.fields[0]!, id: "south", samplings: farm.fields[0]!.samplings.slice(0, 1) };
    const both = { ...farm, fields: [...farm.fields, south] };
    expect(aboutSheet(both, "season.html", "Season 2026")).toEqual({
      day: "2025-11-01",
      later: false,
      sampled: "2025-10-18",
      cite: "Tiny Farm: Season 2026. Field history, records to 1 November 2025, season.html.",
      printed: printed("Tiny Farm: Season 2026. Records to 1 November 2025. season.html"),
    });
    expect(aboutSheet(both, "fields/south.html", "South", south).sampled).toBe("2024-10-14");
    expect(aboutSheet(farm, "index.html", "Tiny Farm").cite).toBe("Tiny Farm. Field history, records to 1 November 2025, index.html.");
  });

  it("does not tell how things stood on a day that was set, where later samplings are shown", () => {
    const farm = tiny();
    expect(aboutSheet({ ...farm, today: "2025-10-17" }, "index.html", "Tiny Farm")).toMatchObject({ day: "2025-10-17", later: true, sampled: "2025-10-18", cite: "Tiny Farm. Field history, records to 18 October 2025, index.html." });
    expect(aboutSheet({ ...farm, today: "2025-10-18" }, "index.html", "Tiny Farm").later).toBe(false);
    expect(aboutSheet({ ...farm, today: "2025-11-01" }, "index.html", "Tiny Farm")).toMatchObject({ later: false, cite: "Tiny Farm. Field history, records to 1 November 2025, index.html." });
  });

  it("writes no name that would end the style sheet or its page", () =>
    expect(aboutSheet({ ...tiny(), name: 'A "b" \\ </style>\nc' }, "index.html", "Home").printed).toBe(printed("A \\22 b\\22  \\5c  \\3c /style>\\a c: Home. Records to 1 November 2025. index.html")));
});

it("a farm whose records hold no day yet is of no day, wherever their day is told", () => {
  const bare = farmFolder().remove("fields/north/samplings").remove("fields/north/seasons").read().farm!;
  expect(aboutSheet(bare, "index.html", "Home")).toEqual({ day: undefined, later: false, sampled: undefined, cite: "Tiny Farm: Home. Field history, records without a day yet, index.html.", printed: printed("Tiny Farm: Home. Records without a day yet. index.html") });
  expect(dataset(bare)).not.toHaveProperty("dateModified");
  // Not "no crop planned": one is, and what it asks for is not known.
  expect(seasonView(bare).seasons).toBe("nothing advised yet");
});
