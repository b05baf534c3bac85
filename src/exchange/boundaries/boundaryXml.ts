import { DOMParser } from "@xmldom/xmldom";
import { BoundaryError } from "./boundaryError.ts";
import { boundaryText } from "./boundaryText.ts";

/**
 * An XML file as a document. Nothing it points to is ever fetched, and one that declares entities or a document type is
 * refused: no drawing needs them. Throws `BoundaryError`.
 */
export const boundaryXml = (bytes: Uint8Array, root: string): Document => {
  const text = boundaryText(bytes);
  if (/<!(DOCTYPE|ENTITY)/i.test(text))
    throw new BoundaryError("declares a document type (DOCTYPE), which is refused; export it again without");
  const document = parsed(text);
  if (document.documentElement.localName !== root)
    throw new BoundaryError(`is XML and no ${root.toUpperCase()}: its outermost element is not <${root}>`);
  return document;
};

const parsed = (text: string): Document => {
  const refuse = (level: string, message: string): never => {
    throw new Error(`${level}: ${message}`);
  };
  try {
    return new DOMParser({ onError: refuse }).parseFromString(text, "text/xml") as unknown as Document;
  } catch (cause) {
    // Of what is no XML at all it says line 0.
    const line = (cause as { locator?: { lineNumber?: number } }).locator?.lineNumber ?? 0;
    throw new BoundaryError(`is not valid XML${line > 0 ? ` (near line ${line})` : ""}`, { cause });
  }
};

const decimal = /^[-+]?(\d+(\.\d*)?|\.\d+)(e[-+]?\d+)?$/i;

/** A number as XML writes it: no units, no degrees and minutes. */
export const isDecimal = (text: string | null): boolean => text !== null && decimal.test(text.trim());

/** Every element of a name, whatever its prefix. */
export const elementsNamed = (document: Document, name: string): Element[] => Array.from(document.getElementsByTagNameNS("*", name));

/** A converter's own failure on a document that is valid XML and makes no sense as a drawing. */
export const converted = <T>(convert: () => T): T => {
  try {
    return convert();
  } catch (cause) {
    throw new BoundaryError("cannot be read as a drawing", { cause });
  }
};
