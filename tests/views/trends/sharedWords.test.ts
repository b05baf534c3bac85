import { expect, it } from "vitest";
import { sharedWords } from "../../../src/views/trends/sharedWords.ts";

const few = "Too few samplings to tell a trend of soil pH: four so far, and five are the fewest that can show one.";

it("tells once what every panel begins with, in whole sentences, and leaves the rest beside each", () => {
  expect(sharedWords([`${few} From 6.3 in 2018 to 6.2 in 2025 may be noise.`, `${few} From 6.3 in 2018 to 6.5 in 2025 may be noise.`])).toEqual({
    shared: `The same in every zone shown. ${few}`,
    rest: ["From 6.3 in 2018 to 6.2 in 2025 may be noise.", "From 6.3 in 2018 to 6.5 in 2025 may be noise."],
  });
  expect(sharedWords(["A is so. B is so. C is so.", "A is so. B is so. D is so."])).toEqual({ shared: "The same in every zone shown. A is so. B is so.", rest: ["C is so.", "D is so."] });
  expect(sharedWords([few, few])).toEqual({ shared: `The same in every zone shown. ${few}`, rest: ["", ""] });
});

it("leaves each its own where one begins otherwise or has nothing to say, and where there is one alone", () => {
  expect(sharedWords([few, "Soil pH is rising since 2014. It is so.", few])).toEqual({ shared: "", rest: [few, "Soil pH is rising since 2014. It is so.", few] });
  expect(sharedWords([few, ""])).toEqual({ shared: "", rest: [few, ""] });
  expect(sharedWords([few])).toEqual({ shared: "", rest: [few] });
  expect(sharedWords([])).toEqual({ shared: "", rest: [] });
});
