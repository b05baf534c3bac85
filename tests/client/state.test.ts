import { afterEach, describe, expect, it, vi } from "vitest";
import { keepState, readState } from "../../src/client/state.ts";

afterEach(() => vi.unstubAllGlobals());

/** The address that a page has after a state was kept; `undefined` where it was left alone. */
const kept = (hash: string, state: Record<string, string>): string | undefined => {
  const replaceState = vi.fn<(data: unknown, unused: string, url: string) => void>();
  vi.stubGlobal("location", { hash, pathname: "/fields.html", search: "?from=mail" });
  vi.stubGlobal("history", { replaceState });
  keepState(state);
  return replaceState.mock.calls[0]?.[2];
};

describe("what is kept behind the # of an address", () => {
  it.each([
    ["#find=low+meadow&sort=2", { find: "low meadow", sort: "2" }],
    ["#find=%C3%84ngen%20%26%20more", { find: "Ängen & more" }],
    ["#lime", {}],
    ["#", {}],
    ["", {}],
  ])("is read from %j", (hash, state) => expect(Object.fromEntries(readState(hash))).toEqual(state));

  it("is what was typed or chosen, and nothing that was not", () => {
    expect(kept("", { find: "Ängen & more", sort: "2", way: "" })).toBe("#find=%C3%84ngen+%26+more&sort=2");
    expect(kept("#find=old", { find: "" })).toBe("/fields.html?from=mail");
  });

  it("leaves the anchor of a heading alone until there is something to keep", () => {
    expect(kept("#lime", { find: "" })).toBeUndefined();
    expect(kept("", { find: "" })).toBeUndefined();
    expect(kept("#lime", { find: "knoll" })).toBe("#find=knoll");
  });

  it("is read as it was kept", () => {
    const state = { find: "50% & #1 = best", map: "pH" };
    expect(Object.fromEntries(readState(kept("", state)!))).toEqual(state);
  });
});
