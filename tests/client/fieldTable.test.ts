import { expect, it } from "vitest";
import { shownWords } from "../../src/client/fieldTable.ts";

it("counts a list of one field, too", () => expect([shownWords(1, undefined), shownWords(4, undefined), shownWords(1, 0), shownWords(4, 1)]).toEqual(["1 field", "4 fields", "0 of 1 field", "1 of 4 fields"]));
