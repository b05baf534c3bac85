import type { APIRoute } from "astro";
import base from "../../styles/base.css?raw";
import figures from "../../styles/figures.css?raw";
import finding from "../../styles/finding.css?raw";
import lists from "../../styles/lists.css?raw";
import maps from "../../styles/maps.css?raw";
import narrow from "../../styles/narrow.css?raw";
import plan from "../../styles/plan.css?raw";
import print from "../../styles/print.css?raw";
import season from "../../styles/season.css?raw";
import sheet from "../../styles/sheet.css?raw";
import steps from "../../styles/steps.css?raw";
import summary from "../../styles/summary.css?raw";
import tables from "../../styles/tables.css?raw";
import tokens from "../../styles/tokens.css?raw";
import { mapSwitchCss } from "../../views/maps/mapSwitch.ts";

/** One stylesheet for the whole site, linked relatively. Of two rules alike in weight the later one counts: narrow screens and print come last. */
const inOrder = [tokens, base, sheet, tables, figures, maps, mapSwitchCss, plan, season, summary, steps, lists, finding, narrow, print];

export const GET: APIRoute = () => new Response(inOrder.join("\n"), { headers: { "content-type": "text/css; charset=utf-8" } });
