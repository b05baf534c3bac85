import type { MiddlewareHandler } from "astro";
import { wholeGrades } from "./components/grades.ts";
import { isolated, rightToLeftNames } from "./components/rightToLeft.ts";
import type { Farm } from "./records/model.ts";
import { siteFarm } from "./site.ts";

const known = new WeakMap<Farm, readonly string[]>();

const namesOf = (farm: Farm): readonly string[] => {
  const names = known.get(farm) ?? rightToLeftNames(farm);
  known.set(farm, names);
  return names;
};

/** Every page: grades are kept whole, and names that are written from right to left set apart. */
export const onRequest: MiddlewareHandler = async (_context, next) => {
  const response = await next();
  if (!response.headers.get("content-type")?.startsWith("text/html")) return response;
  return new Response(isolated(wholeGrades(await response.text()), namesOf(siteFarm())), response);
};
