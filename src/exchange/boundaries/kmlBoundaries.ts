import { kml } from "@tmcw/togeojson";
import { BoundaryError } from "./boundaryError.ts";
import type { RawShape } from "./boundaryShape.ts";
import { boundaryXml, converted, elementsNamed, isDecimal } from "./boundaryXml.ts";

/** The polygons of a KML file. A network link is refused and never followed. Throws `BoundaryError`. */
export const shapesOfKml = (bytes: Uint8Array): RawShape[] => {
  const document = boundaryXml(bytes, "kml");
  if (elementsNamed(document, "NetworkLink").length > 0)
    throw new BoundaryError("points to another file by a network link, which is not fetched; export the polygons themselves");
  for (const element of elementsNamed(document, "coordinates")) checkCoordinates(element.textContent);
  const { features } = converted(() => kml(document));
  // An image laid over the map has a frame, which bounds nothing.
  return features
    .filter((f) => f.properties?.["@geometry-type"] !== "groundoverlay")
    .map((f) => ({ properties: f.properties ?? {}, geometry: f.geometry }));
};

/** The converter drops what it cannot read; a boundary with a corner left out would be another boundary. */
const checkCoordinates = (text: string | null): void => {
  for (const position of (text ?? "").trim().split(/\s+/)) {
    const parts = position.split(",");
    if (position !== "" && (parts.length < 2 || parts.length > 3 || !parts.every(isDecimal)))
      throw new BoundaryError(`has coordinates that cannot be read: "${position.slice(0, 40)}"`);
  }
};
