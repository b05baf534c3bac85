import { expect, it } from "vitest";
import { rate } from "../../src/interpretation/rating.ts";
import { measured } from "../support/measured.ts";
import { expectRefusal } from "../support/outcomes.ts";
import { triState } from "../support/packs.ts";

// Tri-State 2020 limes corn over good subsoil below pH 6.0: less than 6.5 may lie on either side.
it("a soil pH of which the laboratory gives only a bound is rated where the bound settles it, and not rated where it does not", () => {
  const rated = (value: number) => rate({ facts: { crop: "corn", subsoilPh: 6.5 }, packs: [triState], own: undefined }, measured("pH", value, { qualifier: "<" })).outcome;
  expect(rated(5.5)).toMatchObject({ kind: "answer", value: { position: "below" } });
  expectRefusal(rated(6.5), /^the laboratory gives no single number$/, "pH as a number");
});
