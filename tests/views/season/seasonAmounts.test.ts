import { expect, it } from "vitest";
import { loadWords, priceWords } from "../../../src/views/season/seasonAmounts.ts";

it("tells a price by the ton or the tonne of the farm: 100 a short ton is 110.23 a tonne, since a tonne is 1.1023 short tons", () => {
  expect(priceWords(46, "us", "USD")).toBe("$46 per ton");
  expect(priceWords(45.5, "us", "USD")).toBe("$45.50 per ton");
  expect(priceWords(100, "metric", "EUR")).toBe("€110.23 per t");
});

it("tells a load of fertilizer by weight below one ton, and by the ton from one up", () => {
  expect(loadWords("fertilizer", 1999, "us")).toBe("1,999 lb");
  expect(loadWords("fertilizer", 2000, "us")).toBe("1.0 tons");
  expect(loadWords("fertilizer", 3500, "us")).toBe("1.8 tons");
  expect(loadWords("fertilizer", 3500, "metric")).toBe("1.6 t");
});
