import type { MiddlewareHandler } from "astro";
import { isolated, rightToLeftNames } from "./components/rightToLeft.ts";
import type { Farm } from "./records/model.ts";
import { siteFarm } from "./site.ts";

const known = new WeakMap<Farm, readonly string[]>();

const namesOf = (farm: Farm): readonly string[] => {
  const names = known.get(farm) ?? rightToLeftNames(farm);
  known.set(farm, names);
  return names;
};

/** Every page: names that are written from right to left are set apart. A farm without one pays nothing for it. */
export const onRequest: MiddlewareHandler = async (_context, next) => {
  const response = await next();
  const names = namesOf(siteFarm());
  if (names.length === 0 || !response.headers.get("content-type")?.startsWith("text/html")) return response;
  return new Response(isolated(await response.text(), names), response);
};
