import { expect, it } from "vitest";
import { smallTargets } from "../support/smallTargets.ts";
import { unseenFocus } from "../support/unseenFocus.ts";
import { openPage } from "./open.ts";

it("the search that finds small targets finds them, and lets pass what the criterion lets pass", async () => {
  const { page } = await openPage({ viewport: { width: 390, height: 844 } });
  const button = (left: number, text: string, size = 20): string => `<button style="position:absolute;left:${left}px;top:9px;width:${size}px;height:${size}px">${text}</button>`;
  const found = async (html: string): Promise<number> => {
    await page.setContent(html);
    return (await page.evaluate(smallTargets)).length;
  };
  // Two of 20 px whose middles are 22 px apart touch each other's circle of 24 px; at 26 px they do not. A large one may be no nearer than 12 px to a middle.
  expect(await found(button(0, "a") + button(22, "b"))).toBe(2);
  expect(await found(button(0, "a") + button(26, "b"))).toBe(0);
  expect(await found(button(0, "a") + button(21, "b", 30))).toBe(1);
  expect(await found(button(0, "a", 24) + button(24, "b", 24))).toBe(0);
  expect(await found('<p style="font:10px/1 serif">See <a href="#a">this</a><br>and <a href="#b">that</a>.</p>')).toBe(0);
  expect(await found('<p style="font:10px/1 serif"><a href="#a">this</a><br><a href="#b">that</a></p>')).toBe(2);
  await page.setContent('<style>a{outline:0!important}</style><a href="#a">this</a>');
  await page.keyboard.press("Tab");
  expect(await page.evaluate(unseenFocus)).toHaveLength(1);
});
