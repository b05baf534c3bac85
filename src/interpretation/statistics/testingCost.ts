import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { counted, plain } from "../show.ts";

export interface TestingCost {
  /** Of one analysis, in the farm's currency. */
  readonly fee: number;
  readonly acresPerSample: number;
  readonly yearsBetween: number;
}

/** What the laboratory costs an acre and year: fee / acres for each sample / years between samplings. Labor is not in it. */
export const testingCost = ({ fee, acresPerSample, yearsBetween }: TestingCost): Outcome<number> => {
  if (!(acresPerSample > 0) || !(yearsBetween > 0))
    return noAnswer("the acres for each sample and the years between samplings are not both above zero", [
      "acres per sample",
      "years between samplings",
    ]);
  const cost = fee / acresPerSample / yearsBetween;
  return answer(cost, [
    {
      what: "Cost of testing, for each acre and year",
      expression: `${plain(fee, 2)} ÷ ${plain(acresPerSample)} acres ÷ ${counted(yearsBetween, "year")}`,
      result: plain(cost, 2),
    },
  ]);
};
