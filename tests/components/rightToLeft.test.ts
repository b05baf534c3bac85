import { expect, it } from "vitest";
import { isolated, rightToLeftNames } from "../../src/components/rightToLeft.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

/** Unicode Standard Annex 9: FIRST STRONG ISOLATE and POP DIRECTIONAL ISOLATE keep a name from turning what stands beside it. */
const [open, close] = ["\u2068", "\u2069"];
const east = "الحقل الشرقي";

it("finds the names that are written from right to left", () => {
  const folder = farmFolder().write(paths.field, tinyFarm[paths.field]!.replace("name: East end", `name: "${east}"`));
  expect(rightToLeftNames(folder.read().farm!)).toEqual([east]);
});

it("sets them apart in text, and leaves tags, scripts and styles as they are", () => {
  const page = (name: string): string => `<p title="${east} > 3"><b>${name}</b> 88 kg/ha</p><svg><text>${name} 5.9</text></svg><script>const a = "${east}";</script><style>.a::after{content:"${east}"}</style>`;
  expect(isolated(page(east), [east])).toBe(page(`${open}${east}${close}`));
});

it("takes the longest name first, and a name with a sign as HTML writes it", () => {
  const names = ["الحقل", east, 'حقل "3" & 4'];
  expect(isolated(`<p>${east}, الحقل, حقل &quot;3&quot; &amp; 4, حقل &#34;3&#34; &#38; 4</p>`, names)).toBe(`<p>${open}${east}${close}, ${open}الحقل${close}, ${open}حقل &quot;3&quot; &amp; 4${close}, ${open}حقل &#34;3&#34; &#38; 4${close}</p>`);
});

it("changes nothing where no name is written so", () => expect(isolated("<p>North Field</p>", [])).toBe("<p>North Field</p>"));
