import { expect, it } from "vitest";
import { wholeGrades } from "../../src/components/grades.ts";

it.each([
  ["triple superphosphate, 0-46-0 at $610", "triple superphosphate, <span class=\"grade\">0-46-0</span> at $610"],
  ["0-0-60, then 6.5-0-12.5.", "<span class=\"grade\">0-0-60</span>, then <span class=\"grade\">6.5-0-12.5</span>."],
])("keeps the grades of %j whole", (text, whole) => expect(wholeGrades(`<p>${text}</p>`)).toBe(`<p>${whole}</p>`));

it.each(["2025-10-18", "18-46", "1-2-3-4", "100-20-30", "10-20-300", "CA-2510-0-0"])("takes %s for no grade", (text) => expect(wholeGrades(`<p>${text}</p>`)).toBe(`<p>${text}</p>`));

it("leaves attributes, and what may hold no tags, as they are", () => {
  const page = '<title>10-34-0</title><a title="10-34-0 > 3"><svg><text>10-34-0</text></svg></a><option>10-34-0</option><script>const a = "10-34-0";</script><style>.a::after{content:"10-34-0"}</style>';
  expect(wholeGrades(`${page}<b>x</b>`)).toBe(`${page}<b>x</b>`);
  expect(wholeGrades(`${page}<b>10-34-0</b>`)).toBe(`${page}<b><span class="grade">10-34-0</span></b>`);
});
