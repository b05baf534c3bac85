import { spawn, type ChildProcess } from "node:child_process";
import { once } from "node:events";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import type * as Options from "../../scripts/options.ts";
import { installation } from "../../scripts/options.ts";
import { ranHere } from "../support/command.ts";

let home: string;
let server: ChildProcess;
let address = "";
let said = "";

/** As a person's shell has it: the server keeps quiet when it thinks that it is under test. */
const plainEnvironment = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^(VITEST|VITE_|NODE_ENV$|TEST$)/.test(name)));

/** Ask again until `wanted` is on the page; the last page is in the message when it never comes. */
const eventually = async (path: string, wanted: string): Promise<void> => {
  let text = "";
  for (let tries = 0; tries < 100; tries++) {
    text = await fetch(address + path).then((r) => r.text(), String);
    if (text.includes(wanted)) return;
    await new Promise((again) => setTimeout(again, 200));
  }
  expect(text).toContain(wanted);
};

beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), "field-history-dev-"));
  cpSync(join(installation, "tests", "golden", "farm"), home, { recursive: true });
  // One of the guidelines is the installation's, which is not the folder that the server is started in.
  const farm = join(home, "farm.yaml");
  writeFileSync(farm, readFileSync(farm, "utf8").replace("[test-rules]", "[test-rules, soil-chemistry]"));
  server = spawn(process.execPath, [join(installation, "scripts", "main.ts"), "dev", "--content", home], { cwd: home, env: plainEnvironment });
  address = await new Promise<string>((ready, failed) => {
    const listen = (chunk: Buffer): void => {
      said += String(chunk);
      const found = /http:\/\/localhost:\d+/.exec(said);
      if (found) ready(found[0]);
    };
    server.stdout?.on("data", listen);
    server.stderr?.on("data", listen);
    server.on("exit", () => failed(new Error(said)));
  });
}, 60_000);
afterAll(() => {
  server.kill("SIGKILL");
  rmSync(home, { recursive: true, force: true });
});

it("serves no folder that is not there", async () => {
  const { status, stdout, stderr } = await ranHere("dev", ["--content", join(home, "none")]);
  expect([status, stdout, stderr]).toEqual([1, "", `${join(home, "none")} is not a folder; give the folder that holds farm.yaml with --content\n`]);
});

it("serves nothing where the program may not write the files that it renders with, and says so", async () => {
  const [told, served] = [vi.spyOn(console, "error").mockImplementation(() => undefined), vi.fn()];
  vi.resetModules();
  vi.doMock("astro", () => ({ dev: served }));
  vi.doMock("../../scripts/options.ts", async (original) => {
    const options = await original<typeof Options>();
    return { ...options, refuseReadOnly: () => options.refuseReadOnly(join(home, "farm.yaml")) };
  });
  try {
    const [{ runCommand }, { command }] = await Promise.all([import("../../scripts/command.ts"), import("../../scripts/dev.ts")]);
    expect(await runCommand(command, ["--content", home])).toBe(1);
    expect(told.mock.calls.flat().join("\n")).toMatch(/^this program lies in \S+farm\.yaml, where it may not write \(a file stands where a folder should\)/);
    expect(served).not.toHaveBeenCalled();
  } finally {
    for (const mocked of ["astro", "../../scripts/options.ts"]) vi.doUnmock(mocked);
    vi.resetModules();
    told.mockRestore();
  }
});

it("serves the site, follows a change of a record, and says what is wrong with one", { timeout: 60_000 }, async () => {
  await eventually("/", "Croft Test");
  await eventually("/fields/croft.html", "60</b> lb/ac");
  const farm = readFileSync(join(home, "farm.yaml"), "utf8");
  writeFileSync(join(home, "farm.yaml"), farm.replace("Croft Test", "Croft Renamed"));
  await eventually("/", "<h1>Croft Renamed</h1>");
  writeFileSync(join(home, "farm.yaml"), `${farm}colour: red\n`);
  // The page shows the message in an overlay that a script draws; the terminal has it as text, and no stack.
  await eventually("/", "<title>RecordError</title>");
  writeFileSync(join(home, "farm.yaml"), farm);
  await eventually("/", "<h1>Croft Test</h1>");
  expect(said).toMatch(/farm\.yaml:9:1: colour: is not a key known here/);
  expect(said).not.toContain("    at ");
});

it("serves the pages of a field that is added, and no page of a sampling or a field that was taken away", { timeout: 60_000 }, async () => {
  const fields = join(home, "fields");
  const [sampling] = readdirSync(join(fields, "croft", "samplings")).map((file) => `fields/croft/samplings/${file.replace(".yaml", ".html")}`);
  // Which pages there are was asked for once, and must be asked for again.
  await eventually(`/${sampling}`, "sampling");
  await eventually("/fields/annex.html", "Not found");
  cpSync(join(fields, "croft"), join(fields, "annex"), { recursive: true });
  await eventually("/fields/annex.html", "60</b> lb/ac");
  rmSync(join(fields, "annex"), { recursive: true });
  await eventually("/fields/annex.html", "Not found");
  const file = join(home, sampling!.replace(".html", ".yaml"));
  const before = readFileSync(file);
  rmSync(file);
  rmSync(join(fields, "croft", "recommendations"), { recursive: true, force: true });
  said = "";
  await eventually(`/${sampling}`, "Not found");
  writeFileSync(file, before);
  await eventually(`/${sampling}`, "sampling");
  expect(said).not.toMatch(/TypeError|    at /);
});

it("shows the change that made the page reload, however soon after the last page it came", { timeout: 60_000 }, async () => {
  const client = await fetch(`${address}/@vite/client`).then((r) => r.text());
  const token = /wsToken = "([^"]+)"/.exec(client)![1]!;
  const socket = new WebSocket(`${address.replace("http", "ws")}/?token=${token}`, "vite-hmr");
  await once(socket, "open");
  const farm = readFileSync(join(home, "farm.yaml"), "utf8");
  for (const name of ["Croft One", "Croft Two", "Croft Three"]) {
    await fetch(`${address}/`).then((r) => r.text());
    const reload = new Promise<void>((told) => socket.addEventListener("message", ({ data }) => (JSON.parse(String(data)) as { type: string }).type === "full-reload" && told()));
    writeFileSync(join(home, "farm.yaml"), farm.replace("Croft Test", name));
    await reload;
    expect(await fetch(`${address}/`).then((r) => r.text())).toContain(`<h1>${name}</h1>`);
  }
  writeFileSync(join(home, "farm.yaml"), farm);
  socket.close();
});

it("comes to its end with Ctrl-C", { timeout: 60_000 }, async () => {
  const ended = once(server, "exit");
  server.kill("SIGINT");
  expect(await ended).toEqual([0, null]);
});
