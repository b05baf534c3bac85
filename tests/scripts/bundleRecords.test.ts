import { appendFileSync, cpSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { bundleRecords } from "../../scripts/bundleRecords.ts";
import { installation } from "../../scripts/options.ts";
import { zipFault } from "../../src/exchange/bundle/zipWriter.ts";
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

  it("are all that the farm is read from, and the list of publications, and nothing that is for people or hidden", () => {
    const farm = farmFolder().write("reports/a.csv", "pH\n").write("fields/north/.notes", "mine").write("labs/prices.txt", "mine").write("fields/README.md", "mine");
    const expected = ["farm.yaml", "references.yaml", "fields/north/field.yaml", "fields/north/samplings/2024-10-14.yaml", "fields/north/samplings/2025-10-18.yaml", "fields/north/seasons/2025.yaml", "fields/north/zones.geojson", "labs/north-lab.yaml", "guidelines/small-guide.yaml", "reports/a.csv"].map((path) => `records/own/${path}`);
    const paths = bundleRecords(farm.read({ library }).farm!, farm.path, library).map((file) => file.path);
    expect(paths.filter((path) => !path.startsWith("records/installed/guidelines/"))).toEqual([...expected, "records/installed/references.yaml"]);
  });
});

describe("a bundle that cannot be what it should", () => {
  afterEach(() => {
    for (const mocked of ["../../scripts/build.ts", "../../src/exchange/bundle/zipWriter.ts"]) vi.doUnmock(mocked);
    vi.unstubAllEnvs();
    vi.restoreAllMocks();
    vi.resetModules();
  });

  /** What is told in place of a bundle whose site is built so, with nothing left anywhere. */
  const refusal = async (build: (content: string) => object | undefined): Promise<string> => {
    const [farm, home, scratch] = [farmFolder(), temporaryFolder(), temporaryFolder()];
    vi.resetModules();
    vi.doMock("../../scripts/build.ts", () => ({
      buildSite: ({ content, out }: { content: string; out: string }) => {
        mkdirSync(out, { recursive: true });
        writeFileSync(join(out, "index.html"), "");
        return Promise.resolve(build(content));
      },
    }));
    vi.stubEnv("INIT_CWD", home);
    vi.stubEnv("TMPDIR", scratch);
    const said = vi.spyOn(console, "error").mockImplementation(() => undefined);
    const [{ runCommand }, { command }] = await Promise.all([import("../../scripts/command.ts"), import("../../scripts/bundle.ts")]);
    expect(await runCommand(command, ["--content", farm.path])).toBe(1);
    expect([readdirSync(home), readdirSync(scratch)]).toEqual([[], []]);
    return said.mock.calls.flat().join("\n");
  };

  it("is not made where a record is changed while the site is built: it would hold other records than its site tells of", async () => {
    const later = (content: string): object => (appendFileSync(join(content, "farm.yaml"), "# later\n"), {});
    expect(await refusal(later)).toContain("a record was changed while the bundle was made; nothing was written. Run it again.");
  });

  it("is not made where a record comes or gets another name meanwhile", async () => {
    const come = (content: string): object => (cpSync(join(content, "labs/north-lab.yaml"), join(content, "labs/zenith.yaml")), {});
    const renamed = (content: string): object => (renameSync(join(content, "labs/north-lab.yaml"), join(content, "labs/south-lab.yaml")), {});
    for (const change of [come, renamed]) expect(await refusal(change)).toContain("a record was changed while the bundle was made");
  });

  it("is not made where the site could not be built, which has said why", async () => expect(await refusal(() => undefined)).toBe(""));

  it("is not made where a ZIP cannot hold it", async () => {
    vi.doMock("../../src/exchange/bundle/zipWriter.ts", () => ({ zipFault, zipped: () => ({ length: 5 * 2 ** 30 }) }));
    expect(await refusal(() => ({}))).toBe("a ZIP holds less than 4 GB, and this one has 5.0 GB; bundle fewer fields at a time");
  });
});
