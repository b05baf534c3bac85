import type { TestSpecification } from "vitest/node";
import { BaseSequencer } from "vitest/node";

/** The files that take longest, each in its project: those that build sites, print pages or try very many farms. */
const long = ["scripts/bundle", "scripts/new", "scripts/leak", "scripts/dev", "scripts/handover", "scripts/build", "records/audience/cannotBeTold", "scripts/keptChecks", "records/generated", "views/generated", "interpretation/checks/coverage", "views/field/manyZones", "client/search", "scripts/archive", "golden/pages", "fixtures/metric", "site/access", "site/weight", "site/pdf", "site/frame", "site/pdfLeak", "site/maps", "site/narrow"];

const place = ({ project, moduleId }: TestSpecification): number => {
  const found = long.findIndex((name) => moduleId.endsWith(`/tests/${name}.test.ts`));
  // A project's files stay together, so that a process goes on with the modules it has loaded; those in the browser come last, for their site is built meanwhile.
  return (project.name === "site" ? 1000 : 0) + (found < 0 ? long.length : found);
};

/** Long files first: at the end no process waits for the other. */
export class LongestFirst extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return Promise.resolve([...files].sort((a, b) => place(a) - place(b) || (a.moduleId < b.moduleId ? -1 : 1)));
  }
}
