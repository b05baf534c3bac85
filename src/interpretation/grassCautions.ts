import type { Caution } from "./caution.ts";
import { applies, feedsAnimals, limed, littered, manured, rated, readIn } from "./cautionTriggers.ts";

/** Cautions for the animals that graze a field or are fed from it. */
export const grassCautions = {
  potashOnPasture: {
    title: "potash on pasture in early spring",
    text: "Potash spread on pasture in early spring keeps magnesium out of its grass, and cows that graze it can die of grass tetany: the University of Delaware holds potash back until late May or early June.",
    beside: "potassium",
    when: (said) => said.sample.facts.crop === "grassPasture" && applies(said, "K2O", "K"),
    source: { reference: "delaware-spring-pasture" },
  },
  manureOnGrass: {
    title: "manure on grass",
    text: "Manure carries germs to the animals that graze or are fed there, those of Johne's disease above all to calves. Spread none on pasture of calves and heifers in the grazing season, says Progressive Forage; on pasture the germs live up to six months.",
    beside: ["phosphorus", "potassium"],
    ofManure: true,
    when: (said) => manured(said) && feedsAnimals(said),
    source: { reference: "forage-johnes-2009" },
  },
  litterOnGrass: {
    title: "poultry litter and cattle",
    text: "Poultry litter can hold pieces of dead birds, and cattle that eat them die of botulism. Keep animals from heaps of it, and, as New South Wales asks, at least three weeks from where it was spread; Northern Ireland wants none on land that is grazed or cut in the same year. Ask your veterinarian.",
    beside: ["phosphorus", "potassium"],
    ofManure: true,
    when: (said) => littered(said) && feedsAnimals(said),
    source: { reference: "nsw-poultry-litter-2020" },
  },
  molybdenum: {
    title: "lime where molybdenum is high",
    text: "On soil high in molybdenum, grass takes up more of it above pH 6.2, and cattle and sheep that eat it can lack copper. Keep such land at 6.2, says an Irish forage guide, by targetPh in field.yaml, or give the animals copper as your veterinarian advises.",
    beside: "lime",
    when: (said) => (limed(said) || rated(said, "pH", "below")) && feedsAnimals(said) && readIn(said, "ie-"),
    source: { reference: "ie-forage-2018" },
  },
} as const satisfies Record<string, Caution>;
