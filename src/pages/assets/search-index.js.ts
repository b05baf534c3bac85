import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { searchIndex } from "../../views/search/searchIndex.ts";
import { asScript } from "./_bundle.ts";

/** The index is a script and not data, because a page opened from a folder may load nothing else. */
export const GET: APIRoute = () => asScript(`window.fieldSearch=${JSON.stringify(searchIndex(siteFarm()))};\n`);
