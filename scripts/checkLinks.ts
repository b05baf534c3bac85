import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";

/** Every file below a folder, relative, with forward slashes. */
export const filesBelow = (root: string): string[] =>
  readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) =>
      join(e.parentPath, e.name)
        .slice(root.length + 1)
        .replaceAll("\\", "/"),
    )
    .sort();

const attribute = /\s(href|src|id)="([^"]*)"/g;
const unescape = (text: string): string =>
  !text.includes("&")
    ? text
    : text
        .replace(/&#38;|&amp;/g, "&")
        .replace(/&#39;/g, "'")
        .replace(/&#34;|&quot;/g, '"');

/**
 * Everything that would break a site opened from a folder: absolute links, links to elsewhere, links to a missing file,
 * to a folder or to an anchor that is not there, and module scripts. One line each, `page: what`.
 */
export const brokenLinks = (root: string): string[] => {
  const files = new Set(filesBelow(root));
  const pages = new Map([...files].filter((f) => f.endsWith(".html")).map((page) => [page, readPage(join(root, page))]));
  const anchors = new Map([...pages].map(([page, { ids }]) => [page, ids]));
  return [...pages].flatMap(([page, { links, modules }]) => {
    const problems = [...links].flatMap((link) => problemOf(page, link, files, anchors) ?? []);
    return [...(modules ? ["a module script does not run from a folder"] : []), ...problems].map((problem) => `${page}: ${problem}`);
  });
};

/** What a page links to, each once, and the anchors it offers. */
const readPage = (file: string): { links: Set<string>; ids: Set<string>; modules: boolean } => {
  const html = readFileSync(file, "utf8");
  const links = new Set<string>();
  const ids = new Set<string>();
  for (const [, name, value = ""] of html.matchAll(attribute)) (name === "id" ? ids : links).add(unescape(value));
  return { links, ids, modules: /<script[^>]*\btype="?module/.test(html) };
};

const problemOf = (
  page: string,
  link: string,
  files: ReadonlySet<string>,
  anchors: ReadonlyMap<string, ReadonlySet<string>>,
): string | undefined => {
  if (link.startsWith("data:")) return undefined;
  if (/^[a-z][a-z0-9+.-]*:/i.test(link) || link.startsWith("//")) return `link to elsewhere, ${link}`;
  if (link.startsWith("/")) return `absolute link, ${link}`;
  const [path = "", anchor] = link.split("#");
  const target = path === "" ? page : posix.normalize(posix.join(dirname(page), decodeURIComponent(path)));
  if (target.startsWith("..")) return `link out of the site, ${link}`;
  if (!files.has(target)) return `link to a missing file, ${link}`;
  if (anchor !== undefined && anchor !== "" && !anchors.get(target)?.has(decodeURIComponent(anchor)))
    return `link to a missing anchor, ${link}`;
  return undefined;
};
