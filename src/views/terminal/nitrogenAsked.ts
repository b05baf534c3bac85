import type { Advice } from "../../interpretation/advise.ts";
import { noAnswer } from "../../interpretation/outcome.ts";
import type { Sample } from "../../interpretation/sample.ts";
import { analyteInSentence, crops } from "../../interpretation/vocabulary.ts";
import { nitrogenElsewhere } from "../advice/nitrogenView.ts";

/** What is said of nitrogen. A test that no chosen guideline reads is told, or the crop would seem to need none. */
export const nitrogenAsked = ({ facts: { crop }, nitrogen }: Sample, advice: Advice): Advice["nitrogen"] => {
  const [tested] = nitrogen?.measurements ?? [];
  if (advice.nitrogen || !tested) return advice.nitrogen;
  if (crop === undefined) return noAnswer("no crop is planned", ["crop"]);
  const { label } = crops[crop];
  return noAnswer(`none of the chosen guidelines reads ${analyteInSentence(tested.analyte)} for ${label}`, [nitrogenElsewhere(label)]);
};
