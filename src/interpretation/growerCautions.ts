import type { Caution } from "./caution.ts";
import { common } from "./caution.ts";
import { eatenFresh, manured, readIn } from "./cautionTriggers.ts";
import { acidCropMost, growsOnAcidSoil } from "./rules/acidCrop.ts";

/** Cautions of gardens, orchards and what is eaten as it is harvested. */
export const growerCautions = {
  acidSoilCropAbove: {
    title: "soil not acid enough for blueberries",
    text: "Blueberries grow best at a soil pH of 4.0 to 5.3, and above 6.0 are hard to grow, says eXtension. Lime and wood ash would make it worse. Sulfur lowers the pH slowly: mix it in months before planting, or spread a little each year on the surface of a standing bed. Ask a laboratory how much your soil takes.",
    beside: "lime",
    when: ({ sample: { facts } }) => growsOnAcidSoil(facts.crop) && (facts.soilPh ?? 0) > acidCropMost,
    source: { reference: "extension-blueberry-ph" },
  },
  manureDays: {
    title: "raw manure, 90 and 120 days",
    text: "The National Organic Program wants raw manure spread, as Cornell tells it, at least 120 days before the harvest of what touches the soil, such as greens and roots, and 90 days before that of other food; buyers of leafy greens may ask a year or more. Count them to the first harvest of each crop, where two are grown in one year. Compost made hot enough is not raw manure; a heap that merely stood is.",
    beside: "nitrogen",
    ofManure: true,
    when: (said) => manured(said) && eatenFresh(said) && readIn(said, "us-"),
    source: { reference: "cornell-gaps-amendments" },
  },
  leadInGarden: {
    title: "lead in garden soil",
    // Of paint, leaded fuel and orchards: University of Massachusetts, Soil Lead.
    text: "Garden soil beside old buildings, painted walls or busy roads, or where an orchard once stood, can hold lead, which these tests do not show. Have it tested for lead before growing food, wash what you harvest, and keep small children from bare soil.",
    beside: "page",
    when: ({ sample }) => sample.garden === true,
    ...common,
  },
  leadArsenate: {
    title: "old orchards and lead arsenate",
    text: "Orchards, of apples above all, were sprayed with lead arsenate until the late 1950s, says Wisconsin's department of health, and its lead and arsenic are still in the topsoil: these tests do not show them. Where trees stood that long ago, have both tested before vegetables are grown there or children play there.",
    beside: "page",
    when: (said) => (said.sample.facts.crop === "apple" || said.sample.facts.crop === "peach") && readIn(said, "us-"),
    source: { reference: "wisconsin-lead-arsenate" },
  },
} as const satisfies Record<string, Caution>;
