import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { groundsPrint, keptChecks } from "../../scripts/keptChecks.ts";
import { installation } from "../../scripts/options.ts";
import { readChecks } from "../../src/records/reading/readChecks.ts";
import { checksView } from "../../src/views/guidelines/checksView.ts";
import { temporaryFolder } from "../support/farmFolder.ts";

it("what is kept is what is worked out, and what was kept of another program is not taken", { timeout: 60_000 }, async () => {
  const folder = temporaryFolder();
  writeFileSync(join(folder, `${"0".repeat(64)}.json`), "{}");
  const view = checksView(readChecks(join(installation, "tests", "cases"), join(installation, "content")));
  for (const when of ["worked out", "kept"]) expect(await keptChecks(folder).view, when).toEqual(view);
  expect(readdirSync(folder)).toEqual([`${groundsPrint(installation)}.json`]);
  // What stands there is taken as it is, and nothing is worked out again.
  writeFileSync(join(folder, `${groundsPrint(installation)}.json`), '"kept"');
  expect(await keptChecks(folder).view).toBe("kept");
});

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), "field-history-grounds-"));
  for (const part of ["src/interpretation/rules", "src/views", "tests/cases", "content/guidelines", "content/references.yaml", "package-lock.json"]) cpSync(join(installation, part), join(root, part), { recursive: true });
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

it.each(["src/interpretation/rules/bands.ts", "src/views/guidelines/checksView.ts", "tests/cases/bands.yaml", "content/guidelines/us-tristate-974-2020.yaml", "content/references.yaml", "package-lock.json"])("a changed byte of %s makes it another", (file) => {
  const before = groundsPrint(root);
  writeFileSync(join(root, file), `${readFileSync(join(root, file), "utf8")} `);
  expect(groundsPrint(root)).not.toBe(before);
});
