import { crops } from "../../interpretation/vocabulary.ts";
import { list } from "../words.ts";
import type { NextCrop } from "./nextCrop.ts";

/** "corn and wheat" of each season, which is named once: a garden has many crops in one. */
export const cropsBySeason = (next: readonly Pick<NextCrop, "season" | "crop">[]): { season: number; words: string }[] =>
  [...new Set(next.map((n) => n.season))].map((season) => ({
    season,
    words: list([...new Set(next.filter((n) => n.season === season).map((n) => crops[n.crop].label))]),
  }));
