import { BoundaryError } from "./boundaryError.ts";

/** The text of a file, UTF-8 only: a file in another encoding is refused and not half-read. Throws `BoundaryError`. */
export const boundaryText = (bytes: Uint8Array): string => {
  const [a = 0, b = 0] = bytes;
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff)) throw new BoundaryError("is UTF-16 text; save it as UTF-8");
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new BoundaryError("is not UTF-8 text; save it as UTF-8");
  }
  if (text.includes("\0")) throw new BoundaryError("is not plain text (UTF-16, perhaps); save it as UTF-8");
  if (text.trim() === "") throw new BoundaryError("is empty");
  return text;
};
