import type { Step } from "../../src/interpretation/outcome.ts";

/**
 * Read an expression of a worked step as the numbers printed in it, without its units and words; `undefined` where it is
 * not a sum ("5.8 against 6", a list of classes). A percent sign is a division by a hundred; of a range its lower end is read.
 */
const sumIn = (expression: string): string | undefined => {
  const bare = expression
    .replace(/(\d),(?=\d{3})/g, "$1")
    .replaceAll("/100 g", "")
    .replace(/([\d.]+) to [\d.]+/, "$1")
    .replaceAll("%", "÷ 100")
    .replace(/([\d.]+)²/g, "($1 × $1)")
    .replace(/[A-Za-z₂₅³]+(\/[A-Za-z]+)?/g, "")
    .trim();
  return /^[\d.\s()+−×÷]+$/.test(bare) && /[+−×÷]/.test(bare) ? bare : undefined;
};

/** Multiplication and division before addition and subtraction, from the left, with brackets. */
const evaluate = (sum: string): number => {
  const tokens = sum.match(/\d+(\.\d+)?|[()+−×÷]/g) ?? [];
  const value = (): number => {
    const token = tokens.shift();
    if (token !== "(") return Number(token);
    const inner = terms();
    if (tokens.shift() !== ")") throw new Error(`a bracket is missing in ${sum}`);
    return inner;
  };
  const factors = (): number => {
    let product = value();
    while (tokens[0] === "×" || tokens[0] === "÷") product = tokens.shift() === "×" ? product * value() : product / value();
    return product;
  };
  const terms = (): number => {
    let total = factors();
    while (tokens[0] === "+" || tokens[0] === "−") total = tokens.shift() === "+" ? total + factors() : total - factors();
    return total;
  };
  const result = terms();
  if (tokens.length > 0) throw new Error(`cannot read ${sum}`);
  return result;
};

export const numbersIn = (text: string): string[] => text.replace(/(\d),(?=\d{3})/g, "$1").match(/\d+(\.\d+)?/g) ?? [];

/** What a step's printed sum comes to, what it prints as its result, and how far rounding may set the two apart. */
export const recompute = (step: Step): { computed: number; printed: number; within: number } | undefined => {
  const sum = step.expression === undefined ? undefined : sumIn(step.expression);
  if (sum === undefined) return undefined;
  const [text] = numbersIn(step.result);
  if (text === undefined) throw new Error(`${step.what}: a sum without a number for its result: ${step.result}`);
  const scale = step.expression?.includes("%") ? 100 : 1;
  const decimals = Math.max(1, text.split(".")[1]?.length ?? 0);
  const printed = Number(step.result.startsWith("−") ? `-${text}` : text) / scale;
  // Terms that are only added bring the half of their own last place along.
  const terms = /[×÷]/.test(sum) ? [] : numbersIn(sum);
  const added = terms.reduce((total, term) => total + 0.5 * 10 ** -Math.max(1, term.split(".")[1]?.length ?? 0), 0);
  // Half of the last place printed, and a thousandth for the rounding of the numbers that went in.
  return { computed: evaluate(sum), printed, within: (0.5 * 10 ** -decimals) / scale + Math.abs(printed) / 1000 + added };
};
