import { expect, it } from "vitest";
import { sharedWords } from "../../../src/views/trends/sharedWords.ts";

const few = "Too few samplings to tell a trend of soil pH: four so far, and five are the fewest that can show one.";

it("tells once what every panel begins with, in whole sentences, and leaves the rest beside each", () => {
  expect(sharedWords([`${few} The change since 2018 may be noise.`, `${few} The change since 2014 may be noise.`])).toEqual({
    shared: few,
    rest: ["The change since 2018 may be noise.", "The change since 2014 may be noise."],
  });
  expect(sharedWords(["A is so. B is so. C is so.", "A is so. B is so. D is so."])).toEqual({ shared: "A is so. B is so.", rest: ["C is so.", "D is so."] });
  expect(sharedWords([few, few])).toEqual({ shared: few, rest: ["", ""] });
});

it("leaves each its own where one begins otherwise or has nothing to say, and where there is one alone", () => {
  expect(sharedWords([few, "Soil pH is rising since 2014. It is so.", few])).toEqual({ shared: "", rest: [few, "Soil pH is rising since 2014. It is so.", few] });
  expect(sharedWords([few, ""])).toEqual({ shared: "", rest: [few, ""] });
  expect(sharedWords([few])).toEqual({ shared: "", rest: [few] });
  expect(sharedWords([])).toEqual({ shared: "", rest: [] });
});
