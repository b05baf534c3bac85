import { expect, it } from "vitest";
import { idFrom } from "../../src/records/idFrom.ts";

it.each([
  ["Böhmer's Low Field", "bohmers-low-field"],
  ["Ferme de l’Étang & Fils", "ferme-de-letang-fils"],
  ["-Pré Évêque-", "pre-eveque"],
  ["  ../../x  ", "x"],
  ["Ψ", ""],
  ["A".repeat(90), "a".repeat(60)],
  ["x".repeat(59) + " y", "x".repeat(59)],
  ["Großer Kamp", "grosser-kamp"],
  ["Długie Pole", "dlugie-pole"],
  ["Ærø Høj", "aero-hoj"],
  ["Þórs Völlur", "thors-vollur"],
])("%s makes the id %s", (name, id) => expect(idFrom(name)).toBe(id));
