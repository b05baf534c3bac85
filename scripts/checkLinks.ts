import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";

/** Every file below a folder, relative, with forward slashes. */
export const filesBelow = (root: string): string[] =>
  readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => join(e.parentPath, e.name).slice(root.length + 1).replaceAll("\\", "/"))
    .sort();

const attribute = /\s(?:href|src)="([^"]*)"/g;
const identifier = /\sid="([^"]*)"/g;
const unescape = (text: string): string => text.replace(/&#38;|&amp;/g, "&").replace(/&#39;/g, "'").replace(/&#34;|&quot;/g, '"');

/**
 * Everything that would break a site opened from a folder: absolute links, links to elsewhere, links to a missing file,
 * to a folder or to an anchor that is not there, and module scripts. One line each, `page: what`.
 */
export const brokenLinks = (root: string): string[] => {
  const files = new Set(filesBelow(root));
  const pages = [...files].filter((f) => f.endsWith(".html"));
  const html = new Map(pages.map((page) => [page, readFileSync(join(root, page), "utf8")]));
  const anchors = new Map([...html].map(([page, text]) => [page, new Set([...text.matchAll(identifier)].map((m) => unescape(m[1]!)))]));
  const broken: string[] = [];
  for (const [page, text] of html) {
    if (/<script[^>]*\btype="?module/.test(text)) broken.push(`${page}: a module script does not run from a folder`);
    const seen = new Set<string>();
    for (const [, raw = ""] of text.matchAll(attribute)) {
      const link = unescape(raw);
      if (seen.has(link)) continue;
      seen.add(link);
      const problem = problemOf(page, link, files, anchors);
      if (problem) broken.push(`${page}: ${problem}`);
    }
  }
  return broken;
};

const problemOf = (page: string, link: string, files: ReadonlySet<string>, anchors: ReadonlyMap<string, ReadonlySet<string>>): string | undefined => {
  if (link.startsWith("data:")) return undefined;
  if (/^[a-z][a-z0-9+.-]*:/i.test(link) || link.startsWith("//")) return `link to elsewhere, ${link}`;
  if (link.startsWith("/")) return `absolute link, ${link}`;
  const [path = "", anchor] = link.split("#");
  const target = path === "" ? page : posix.normalize(posix.join(dirname(page), decodeURIComponent(path)));
  if (target.startsWith("..")) return `link out of the site, ${link}`;
  if (!files.has(target)) return `link to a missing file, ${link}`;
  if (anchor !== undefined && anchor !== "" && !anchors.get(target)?.has(decodeURIComponent(anchor))) return `link to a missing anchor, ${link}`;
  return undefined;
};
