import type { Farm, Lab } from "../model.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { everyField } from "./everyField.ts";

/** What stands where the owner wrote why. */
export const reasonLeftOut = "the reason is left out for this reader";

const withoutReason = (m: Measurement): Measurement => ({ ...m, correction: m.correction && { ...m.correction, reason: reasonLeftOut } });
const plainLab = (lab: Lab): Lab => ({ ...lab, note: undefined });

/**
 * Nothing that the owner wrote in his own words: notes, what the farm is about, reasons, whom a field is rented from. Names of fields, zones,
 * soils, products and laboratories stay.
 */
export const withoutNotes = (farm: Farm): Farm =>
  everyField(
    {
      ...farm,
      about: undefined,
      products: new Map([...farm.products].map(([id, p]) => [id, { ...p, product: { ...p.product, note: undefined } }])),
      labs: new Map([...farm.labs].map(([id, lab]) => [id, plainLab(lab)])),
    },
    {
      field: (f) => ({
        ...f,
        note: undefined,
        tenure: f.tenure && { ...f.tenure, from: undefined },
        boundary: f.boundary && { ...f.boundary, note: undefined },
        targetPh: f.targetPh && { ...f.targetPh, reason: reasonLeftOut },
        seasons: f.seasons.map((s) => ({ ...s, note: undefined })),
      }),
      sampling: (s) => ({ ...s, note: undefined, lab: plainLab(s.lab), handling: { ...s.handling, tool: undefined } }),
      composite: (c) => ({ ...c, note: undefined, measurements: c.measurements.map(withoutReason) }),
      crop: (c) => ({ ...c, note: undefined }),
      application: (a) => ({ ...a, note: undefined, product: { ...a.product, product: { ...a.product.product, note: undefined } } }),
    },
  );
