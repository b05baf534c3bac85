import { describe, expect, it } from "vitest";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

const { sampling, field, season } = paths;

// YAML 1.2.2, section 6.6: a # after a blank begins a comment, and in a plain text no quotes keep it from that.
describe("a text without quotes that a # and a number cut short", () => {
  it("is told where it stands, with what was read and how to write it", () => {
    expect(linesAfter(sampling, 'label: "0021"', "label: A #1")).toEqual([`${sampling}:8:12: composites[1].label: warning: is read as "A", because a # after a blank begins a comment; if #1 belongs to it, put the whole in quotes: "A #1"`]);
    expect(linesAfter(field, "name: North Field", "name: North Field   #2 by the lane")).toEqual([`${field}:1:7: name: warning: is read as "North Field", because a # after a blank begins a comment; if #2 belongs to it, put the whole in quotes: "North Field #2 by the lane"`]);
  });

  it("is told in a list and within brackets", () => {
    expect(farmFolder().write("references.yaml", "r:\n  title: A list\n  publisher: P\n  url: [\n    b #3\n  ]\n").lines()).toContainEqual(expect.stringMatching(/^references\.yaml:5:5: r\.url\[1\]: warning: is read as "b",/));
  });

  it.each([
    ["in quotes", sampling, 'label: "0021"', 'label: "A #1"'],
    ["a comment in words", field, "name: North Field", "name: North Field # 1 of two"],
    ["a comment after a number", sampling, "K: 104", "K: 104 #1"],
    ["a sign without a blank before it", field, "name: North Field", "name: North#1"],
    ["within a text of several lines", season, "season: 2025", "note: |\n  bag: A #1\nseason: 2025"],
    ["a comment of its own line", season, "season: 2025", "#1 of 2\nseason: 2025"],
  ])("is no other: %s", (_, file, from, to) => expect(linesAfter(file, from, to).filter((line) => line.includes("#"))).toEqual([]));
});
