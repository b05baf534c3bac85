import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import type { Farm } from "../src/records/model.ts";

export const papers = ["A4", "Letter"] as const;
export type Paper = (typeof papers)[number];

/** The sheet a farm prints on when nobody says: metric farms lie where A4 is sold. */
export const paperOf = ({ units }: Pick<Farm, "units">): Paper => (units === "metric" ? "A4" : "Letter");

/**
 * The PDF of each page of the site in a folder, tagged for screen readers and with its headings as an outline. Margins are those of
 * the site's own print styles.
 */
export async function* printPages(
  browser: Browser,
  site: string,
  pages: readonly string[],
  format: Paper,
): AsyncGenerator<[path: string, pdf: Uint8Array]> {
  // Without the script, the figures drawn at build time are what is printed.
  const context = await browser.newContext({ javaScriptEnabled: false });
  try {
    // One tab for all of them: to Chromium a new one is a new process, which takes longer than most pages take to print.
    const page = await context.newPage();
    for (const path of pages) {
      await page.goto(pathToFileURL(join(site, path)).href);
      // A PDF names its links in full: one to another page would lead into this computer's folders, and from any other nowhere.
      await page.evaluate(() => {
        for (const link of document.querySelectorAll<HTMLAnchorElement>('a[href]:not([href^="#"])'))
          if (link.protocol === "file:") link.removeAttribute("href");
      });
      yield [path, await page.pdf({ format, tagged: true, outline: true, printBackground: false })];
    }
  } finally {
    await context.close();
  }
}
