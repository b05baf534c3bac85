import { appendFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { bundleRecords } from "../../scripts/bundleRecords.ts";
import { installation } from "../../scripts/options.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";

const library = join(installation, "content");

describe("the records in a bundle", () => {
  it("hold the farm's own edition of an installed guideline, and not the installed one beside it", () => {
    const id = "us-oregon-lime-2025";
    const own = readFileSync(join(library, "guidelines", `${id}.yaml`), "utf8");
    const paths = (farm: ReturnType<typeof farmFolder>): string[] =>
      bundleRecords(farm.read({ library }).farm!, farm.path, library)
        .map((file) => file.path)
        .filter((path) => path.includes(id));
    const chosen = () => farmFolder().change("farm.yaml", "[small-guide]", `[small-guide, ${id}]`);
    expect(paths(chosen())).toEqual([`records/installed/guidelines/${id}.yaml`]);
    expect(paths(chosen().write(`guidelines/${id}.yaml`, own))).toEqual([`records/own/guidelines/${id}.yaml`]);
  });
});

describe("a record that is changed while the site is built", () => {
  afterEach(() => {
    vi.doUnmock("../../scripts/build.ts");
    vi.unstubAllEnvs();
    vi.restoreAllMocks();
    vi.resetModules();
  });

  it("stops the bundle, which would hold other records than its site tells of; nothing is left", async () => {
    const [farm, home, scratch] = [farmFolder(), temporaryFolder(), temporaryFolder()];
    vi.resetModules();
    vi.doMock("../../scripts/build.ts", () => ({
      buildSite: ({ content, out }: { content: string; out: string }) => {
        mkdirSync(out, { recursive: true });
        writeFileSync(join(out, "index.html"), "");
        appendFileSync(join(content, "farm.yaml"), "# later\n");
        return Promise.resolve({});
      },
    }));
    vi.stubEnv("INIT_CWD", home);
    vi.stubEnv("TMPDIR", scratch);
    const said = vi.spyOn(console, "error").mockImplementation(() => undefined);
    const [{ runCommand }, { command }] = await Promise.all([import("../../scripts/command.ts"), import("../../scripts/bundle.ts")]);
    expect(await runCommand(command, ["--content", farm.path])).toBe(1);
    expect(said.mock.calls.flat().join("\n")).toContain("a record was changed while the bundle was made; nothing was written. Run it again.");
    expect([readdirSync(home), readdirSync(scratch)]).toEqual([[], []]);
  });
});
