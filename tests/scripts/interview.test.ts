import { createInterface } from "node:readline/promises";
import { PassThrough } from "node:stream";
import { afterEach, describe, expect, it, vi } from "vitest";
import { Interview } from "../../scripts/interview.ts";
import type { Question } from "../../src/records/starting/newRecordsQuestions.ts";

const crop: Question = { flag: "crop", ask: "Which crop", as: (a) => a.toLowerCase(), problem: (a) => (["corn", "wheat"].includes(a) ? undefined : `"${a}" is not known here; allowed: corn, wheat`) };
const bags: Question = { flag: "bags", ask: "Bags", fallback: "1", problem: (a) => (/^[1-9]$/.test(a) ? undefined : "must be a number from 1 to 9") };
const lab: Question = { flag: "lab", ask: "Laboratory: only-one", fallback: "only-one", settled: true, problem: () => undefined };

/** A terminal at which a person types these lines, one after each question; `asked` is what it showed. */
const typing = (...lines: string[]) => {
  const asked: string[] = [];
  const terminal = createInterface({ input: new PassThrough(), output: new PassThrough() });
  vi.spyOn(terminal, "question").mockImplementation((query: string) => {
    asked.push(query);
    return Promise.resolve(lines.shift()!);
  });
  return { asked, terminal };
};

afterEach(() => vi.restoreAllMocks());

describe("a person who is asked", () => {
  it("is told what is wrong with an answer and asked again until it will do; an empty one takes what stands in brackets", async () => {
    const told = vi.spyOn(console, "error").mockImplementation(() => undefined);
    const { asked, terminal } = typing("", "maize", " Corn ", "ten", "");
    const interview = new Interview({}, [], terminal);
    expect(await interview.answers([crop, bags])).toEqual({ crop: "corn", bags: "1" });
    expect(asked).toEqual(["Which crop: ", "Which crop: ", "Which crop: ", "Bags [1]: ", "Bags [1]: "]);
    expect(told.mock.calls.flat()).toEqual(["  needs an answer", '  "maize" is not known here; allowed: corn, wheat', "  must be a number from 1 to 9"]);
    const closed = vi.spyOn(terminal, "close");
    interview.close();
    expect(closed).toHaveBeenCalledOnce();
  });

  it("is not asked what a flag answers, nor what leaves nothing to choose", async () => {
    const { asked, terminal } = typing();
    const interview = new Interview({ crop: "WHEAT", bags: "2" }, [], terminal);
    expect(await interview.answers([crop, lab, bags])).toEqual({ crop: "wheat", lab: "only-one", bags: "2" });
    expect(asked).toEqual([]);
    interview.close();
  });

  it("is asked nothing where a flag is wrong: that is told first", async () => {
    const { asked, terminal } = typing("corn");
    await expect(new Interview({ bags: "0" }, [], terminal).answers([crop, bags])).rejects.toThrow("--bags: must be a number from 1 to 9");
    expect(asked).toEqual([]);
    terminal.removeAllListeners("close");
    terminal.close();
  });

  it("ends the command, with nothing answered, when the input ends", () => {
    const exit = vi.spyOn(process, "exit").mockImplementation(() => undefined as never);
    const { terminal } = typing();
    new Interview({}, [], terminal);
    terminal.close();
    expect(exit).toHaveBeenCalledWith(1);
  });
});

describe("where nobody can be asked", () => {
  const given = (answers: Readonly<Record<string, string>>, faults: readonly string[] = []): Interview => new Interview(answers, faults);

  it("all that is wrong with the command is told at once, a line each: options that are none, wrong answers, then what is missing", () => {
    const refuse = () => given({ bags: "0" }, ["--color: is no option"]).refuse([crop, lab], [bags]);
    expect(refuse).toThrow(/^--color: is no option\n--bags: must be a number from 1 to 9\nmissing: --crop \(which crop\)$/);
  });

  it("what has a fallback is not missing, and of later questions only wrong answers are told", async () => {
    expect(await given({ crop: "corn" }).answers([crop, bags, lab])).toEqual({ crop: "corn", bags: "1", lab: "only-one" });
    expect(() => given({}).refuse([bags], [crop])).not.toThrow();
  });

  it("an answer counts as given where it will do, as it would be recorded", () =>
    expect([given({ crop: "CORN" }), given({ crop: "maize" }), given({})].map((interview) => interview.given(crop))).toEqual(["corn", undefined, undefined]));
});
