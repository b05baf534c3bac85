import { describe, expect, it } from "vitest";
import { resultText } from "../../../src/exchange/results/resultFileText.ts";

const line = "Probe;Kalium\nMüller 1;96\n";
const utf16 = (text: string): Buffer => Buffer.from(`\ufeff${text}`, "utf16le");

describe("the text of a result file", () => {
  it.each<[string, Uint8Array, Parameters<typeof resultText>[1]]>([
    ["UTF-8", Buffer.from(line), undefined],
    ["UTF-8 with a mark", Buffer.from(`\ufeff${line}`), undefined],
    ["UTF-8 with a mark, whatever is stated", Buffer.from(`\ufeff${line}`), "windows-1252"],
    ["UTF-16 with a mark", utf16(line), undefined],
    ["UTF-16 with a mark, the other way round", utf16(line).swap16(), "latin-1"],
    ["Windows-1252", Buffer.from(line, "latin1"), "windows-1252"],
    ["Latin-1", Buffer.from(line, "latin1"), "latin-1"],
    ["Windows line ends", Buffer.from(line.replaceAll("\n", "\r\n")), undefined],
    ["old line ends", Buffer.from(line.replaceAll("\n", "\r")), undefined],
  ])("is read from %s", (_, bytes, stated) => {
    expect(resultText(bytes, stated)).toEqual({ text: line });
  });

  it("takes half a mark for a letter", () => expect(resultText(Buffer.from([0xfe, 0x61]), "latin-1")).toEqual({ text: "þa" }));

  // The euro sign is 0x80 in Windows-1252 and a control character in Latin-1.
  it("keeps Windows-1252 and Latin-1 apart", () => {
    expect(resultText(Buffer.from([0x61, 0x80]), "windows-1252")).toEqual({ text: "a€" });
    expect(resultText(Buffer.from([0x61, 0x81]), "windows-1252")).toEqual({ fault: { line: 1, column: 2, because: "has a control character (U+0081), so it is no text in Windows-1252" } });
    expect(resultText(Buffer.from([0x61, 0x80]), "latin-1")).toEqual({ fault: { line: 1, column: 2, because: "has a control character (U+0080), so it is no text in Latin-1" } });
  });

  it.each<[string, Uint8Array, number, number, string]>([
    ["Latin-1 taken for UTF-8", Buffer.from(line, "latin1"), 2, 2, "is not UTF-8 text from here on; save it as UTF-8, or state the laboratory's encoding, such as windows-1252"],
    ["UTF-8 cut within a letter", Buffer.from([0x61, 0x0d, 0x0a, 0x62, 0xc3]), 2, 2, "is not UTF-8 text from here on; save it as UTF-8, or state the laboratory's encoding, such as windows-1252"],
    ["UTF-16 cut within a letter", utf16(line).subarray(0, -1), 2, 12, "is not UTF-16 text from here on"],
    ["UTF-16 without a mark", utf16("a\n").subarray(2), 1, 2, "has a control character (U+0000), so it is no text in UTF-8"],
    ["UTF-16 with a zero in it", utf16("a\n\0"), 2, 1, "has a control character (U+0000), so it is no text"],
    ["a wrong byte after old line ends", Buffer.from([0x61, 0x0d, 0x62, 0xff]), 2, 2, "is not UTF-8 text from here on; save it as UTF-8, or state the laboratory's encoding, such as windows-1252"],
    ["a zero byte", Buffer.from("a\nb\0c"), 2, 2, "has a control character (U+0000), so it is no text in UTF-8"],
    ["a spreadsheet", Buffer.from("PK\u0003\u0004rest", "latin1"), 1, 1, "is a spreadsheet or another packed file, not text; save it as CSV"],
    ["an old spreadsheet", Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1]), 1, 1, "is a spreadsheet of the old kind, not text; save it as CSV"],
    ["a packed file", Buffer.from([0x1f, 0x8b, 0x08, 0x00]), 1, 1, "is a packed file, not text; save it as CSV"],
    ["a PDF", Buffer.from("%PDF-1.7\n"), 1, 1, "is a PDF, not text; save it as CSV"],
  ])("is refused: %s", (_, bytes, at, column, because) => {
    expect(resultText(bytes)).toEqual({ fault: { line: at, column, because } });
  });
});
