import { gpx } from "@tmcw/togeojson";
import { BoundaryError } from "./boundaryError.ts";
import type { RawShape } from "./boundaryShape.ts";
import { boundaryXml, converted, elementsNamed, isDecimal } from "./boundaryXml.ts";

/** The tracks and routes of a GPX file, each to be closed round the ground it encloses. Throws `BoundaryError`. */
export const shapesOfGpx = (bytes: Uint8Array): RawShape[] => {
  const document = boundaryXml(bytes, "gpx");
  // The converter drops a point it cannot read; a boundary with a corner left out would be another boundary.
  for (const name of ["trkpt", "rtept"])
    for (const point of elementsNamed(document, name))
      if (!isDecimal(point.getAttribute("lat")) || !isDecimal(point.getAttribute("lon")))
        throw new BoundaryError(`has a ${name === "trkpt" ? "track" : "route"} point without a latitude and longitude in degrees`);
  const { features } = converted(() => gpx(document));
  return features.map((f) => ({ properties: f.properties ?? {}, geometry: f.geometry, walked: true }));
};
