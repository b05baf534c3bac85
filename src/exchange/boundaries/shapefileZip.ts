import { Unzip, UnzipInflate } from "fflate";
import { BoundaryError } from "./boundaryError.ts";

/** What the parts of a shapefile may hold together when unpacked. */
const mostUnpacked = 20_000_000;

interface Parts {
  readonly shp: Uint8Array;
  readonly prj: Uint8Array;
  readonly dbf: Uint8Array | undefined;
  readonly cpg: Uint8Array | undefined;
}

/** So little is unpacked at once that a file made to swell is caught on its way. */
const chunk = 16_384;

const part = /^(?:.*\/)?([^/]+)\.(shp|dbf|prj|cpg)$/i;

/** The parts of the one shapefile in a zip that are read. Throws `BoundaryError`. */
export const unzipShapefile = (bytes: Uint8Array): Parts => {
  const files = unpacked(bytes);
  const names = [...new Set([...files.keys()].filter((name) => name.endsWith(".shp")))];
  if (names.length === 0) throw new BoundaryError("holds no shapefile (.shp)");
  if (names.length > 1) throw new BoundaryError(`holds ${names.length} shapefiles; give one that holds the zones`);
  const base = names[0]!.slice(0, -4);
  const prj = files.get(`${base}.prj`);
  if (!prj)
    throw new BoundaryError(
      "has no .prj file beside its .shp, so its coordinates may be anything; export it again as WGS 84 (EPSG:4326) with the .prj",
    );
  return { shp: files.get(names[0]!)!, prj, dbf: files.get(`${base}.dbf`), cpg: files.get(`${base}.cpg`) };
};

const cutOff = "is a zip file that is broken or cut off";

/** Ways of packing a part, by their numbers: as it is, and deflated. */
const unpackable = [0, 8];

/** A zip ends with a record of 22 bytes and at most a comment of 65,535. What is unpacked on the way cannot tell that a part was to come. */
const hasItsEnd = (bytes: Uint8Array): boolean => {
  for (let at = bytes.length - 22; at >= Math.max(0, bytes.length - 22 - 65_535); at--)
    if (bytes[at] === 0x50 && bytes[at + 1] === 0x4b && bytes[at + 2] === 5 && bytes[at + 3] === 6) return true;
  return false;
};

const unpacked = (bytes: Uint8Array): Map<string, Uint8Array> => {
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) throw new BoundaryError("is no zip file");
  if (!hasItsEnd(bytes)) throw new BoundaryError(cutOff);
  // The first bit of a part's flags.
  if ((bytes[6]! & 1) === 1) throw new BoundaryError("is a zip file with a password; pack it anew without one");
  const chunks = new Map<string, Uint8Array[]>();
  let total = 0;
  const unzip = new Unzip((file) => {
    const [, base, ending] = part.exec(file.name) ?? [];
    if (base === undefined || ending === undefined || base.startsWith(".") || file.name.includes("__MACOSX")) return;
    const name = `${base}.${ending.toLowerCase()}`;
    if (chunks.has(name)) throw new BoundaryError(`holds ${name} twice; give one shapefile`);
    if (!unpackable.includes(file.compression))
      throw new BoundaryError("is a zip file packed in a way that is not read; pack it anew as an ordinary zip");
    const pieces: Uint8Array[] = [];
    chunks.set(name, pieces);
    file.ondata = (fault, piece) => {
      if (fault) throw fault;
      total += piece.length;
      if (total > mostUnpacked) throw new BoundaryError("unpacks to more than 20 MB, too large for the zones of a field");
      pieces.push(piece);
    };
    file.start();
  });
  unzip.register(UnzipInflate);
  try {
    for (let at = 0; at < bytes.length; at += chunk) unzip.push(bytes.subarray(at, at + chunk), at + chunk >= bytes.length);
  } catch (cause) {
    if (cause instanceof BoundaryError) throw cause;
    throw new BoundaryError(cutOff, { cause });
  }
  return new Map([...chunks].map(([name, pieces]) => [name, joined(pieces)]));
};

const joined = (pieces: readonly Uint8Array[]): Uint8Array => {
  const all = new Uint8Array(pieces.reduce((sum, p) => sum + p.length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
};
