import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { formatProblems } from "../../../src/records/problem.ts";
import { importSummary } from "../../../src/views/terminal/importView.ts";
import { awaitingFarm, awaitingSampling, carryOut, complaints, planned, planOf } from "../../support/awaitingFarm.ts";
import { paths } from "../../support/tinyFarm.ts";

const columns = `columns:
    Label: label
    Job: report
    Sampled: { date: dayMonthYear }
    Received: { date: dayMonthYear, of: receipt }
    Issued: { date: dayMonthYear, of: report }
    pH: { analyte: pH }
`;
const file = (...rows: string[]): string => ["Label,Job,Sampled,Received,Issued,pH", ...rows, ""].join("\n");
const usual = file("0021,L-77,18.10.2025,21.10.2025,28.10.2025,6.2", "0022,L-77,18.10.2025,21.10.2025,28.10.2025,6.5");
const record = (folder: { readonly path: string }): string => readFileSync(join(folder.path, paths.sampling), "utf8");
const warnings = (folder: ReturnType<typeof awaitingFarm>, text: string): string[] => formatProblems(planned(folder, text).problems).split("\n").filter(Boolean);

describe("what a laboratory's file says of its own work", () => {
  it("goes into the record once, and a second run has nothing to do", () => {
    const farm = awaitingFarm(columns);
    const plan = planOf(planned(farm, usual));
    expect(importSummary(plan)).toContain("north/2025-10-18: received 2025-10-21, reported 2025-10-28, report L-77.");
    carryOut(farm, plan);
    expect(record(farm)).toContain('unit: in }\nhandling: { receivedOn: 2025-10-21, reportedOn: 2025-10-28 }\nreport: { number: "L-77" }\ncomposites:');
    const { farm: read, problems } = farm.read();
    expect(problems.filter((p) => p.severity === "error")).toEqual([]);
    expect(read!.fields[0]!.samplings.at(-1)).toMatchObject({ handling: { receivedOn: "2025-10-21", reportedOn: "2025-10-28" }, report: { number: "L-77" } });
    expect(planOf(planned(farm, usual))).toMatchObject({ bags: [], statements: [], known: 2 });
  });

  it("comes alone where the results are in the records already", () => {
    const farm = awaitingFarm(columns);
    carryOut(farm, planOf(planned(farm, file("0021,,,,,6.2"))));
    const plan = planOf(planned(farm, file("0021,L-77,,,,6.2")));
    expect(plan).toMatchObject({ bags: [], known: 1, statements: [{ said: { number: "L-77" } }] });
    carryOut(farm, plan);
    expect(record(farm)).toContain('report: { number: "L-77" }');
  });

  it("leaves what the record has, and says so without holding up a result", () => {
    const farm = awaitingFarm(columns, awaitingSampling.replace("composites:", "handling: { receivedOn: 2025-10-20 }\nreport: { number: L-76 }\ncomposites:"));
    expect(warnings(farm, usual)).toEqual([
      `results.csv:2:6: Job: warning: is L-77, and ${paths.sampling} says L-76; the record is left as it is`,
      `results.csv:2:22: Received: warning: is 2025-10-21, and ${paths.sampling} says 2025-10-20; the record is left as it is`,
    ]);
    expect(planOf(planned(farm, usual))).toMatchObject({ bags: [{}, {}], statements: [{ said: { reportedOn: "2025-10-28" } }] });
  });

  it("is told in short where the file holds a page of it", () => {
    const farm = awaitingFarm(columns, awaitingSampling.replace("composites:", "report: { number: L-76 }\ncomposites:"));
    expect(warnings(farm, file(`0021,${"x".repeat(2000)},,,,6.2`))).toEqual([`results.csv:2:6: Job: warning: is ${"x".repeat(40)}, and ${paths.sampling} says L-76; the record is left as it is`]);
  });

  it("is written of neither where two bags of one sampling have it differently", () => {
    const farm = awaitingFarm(columns);
    const two = file("0021,L-77,,21.10.2025,28.10.2025,6.2", "0022,L-78,,21.10.2025,29.10.2025,6.5");
    expect(warnings(farm, two)).toEqual([
      "results.csv:3:6: Job: warning: is L-78, and L-77 in line 2 for a bag of the same sampling; neither is written",
      "results.csv:3:23: Issued: warning: is 2025-10-29, and 2025-10-28 in line 2 for a bag of the same sampling; neither is written",
    ]);
    expect(planOf(planned(farm, two)).statements).toMatchObject([{ said: { receivedOn: "2025-10-21" } }]);
  });

  it("may be missing, by the laboratory's own word too", () => {
    const farm = awaitingFarm(columns.replace("columns:", "missing: [n/a]\n  columns:"));
    expect(planOf(planned(farm, file("0021,n/a,N/A,n/a,,6.2"))).statements).toEqual([]);
  });

  it("is refused where it is no day, or the column is given twice", () => {
    expect(complaints(awaitingFarm(columns), file("0021,L-77,,21/10/25,,6.2"))).toEqual(['results.csv:2:12: Received: "21/10/25" is not a calendar day written as dayMonthYear, the year in four digits']);
    expect(complaints(awaitingFarm(columns.replace("Job: report", "Job: { date: dayMonthYear, of: receipt }")), file("0021,,,,,6.2"))).toEqual(['results.csv:1:19: Received: gives the day of receipt, as "Job" does; ignore one of them']);
  });
});
