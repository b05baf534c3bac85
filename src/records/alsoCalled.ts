import { analyteIds, analytes } from "../interpretation/vocabulary.ts";

/**
 * What crops, analytes, methods and units are called elsewhere, in small letters without blanks or marks: a message on a word that is not
 * known offers the one used here. A unit is offered only for what is the same by definition.
 */
export const alsoCalled: Readonly<Record<string, readonly string[]>> = {
  ...Object.fromEntries(analyteIds.map((id) => [id, [analytes[id].label.toLowerCase().replaceAll(" ", "")]])),
  bufferPh: ["bph", "phbuffer"],
  organicMatter: ["om"],
  salts: ["ec", "solublesalts"],
  nitrateN: ["no3n", "no3"],
  nitrate: ["no3"],
  mehlich3: ["m3", "mehlichiii"],
  mehlich1: ["m1", "mehlichi"],
  lossOnIgnition: ["loi"],
  ppm: ["mgkg"],
  "meq/100 g": ["cmolkg", "cmolckg", "me100g"],
  "dS/m": ["mscm", "mmhocm", "mmhoscm"],
  "%": ["percent"],
  in: ["inch", "inches"],
  "lb/ac": ["lbacre", "lbsacre", "poundsacre"],
  "ton/ac": ["tonacre", "tonsacre"],
  "bu/ac": ["bu", "bushels", "buacre", "bushelsacre"],
  corn: ["maize"],
  grainMaize: ["maize"],
  mineralN: ["nmin"],
  calciumAcetateLactate: ["cal"],
  doubleLactate: ["dl"],
  electroUltrafiltration: ["euf"],
  sweetCorn: ["sweetmaize"],
  cornSilage: ["maizesilage", "silagemaize"],
  alfalfa: ["lucerne"],
  winterOilseedRape: ["canola", "wintercanola", "rapeseed"],
  springOilseedRape: ["canola", "springcanola", "rapeseed"],
};
