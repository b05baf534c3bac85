import type { Farm } from "../model.ts";
import { everyField } from "./everyField.ts";

/** No yield and no yield goal. What rests on one (a rate, a removal, a balance) then says that it is left out, not that it is missing. */
export const withoutYields = (farm: Farm): Farm =>
  everyField(farm, {
    planned: (p) => ({ ...p, yieldGoal: undefined, yieldWithheld: p.yieldGoal !== undefined }),
    crop: (c) => ({ ...c, yield: undefined, moisture: undefined, yieldWithheld: c.yield !== undefined }),
  });
