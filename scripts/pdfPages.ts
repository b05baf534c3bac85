/** Pages that explain how advice is come by, which are the same for every reader, and long; and those that only lead to others. */
const notPrinted =
  /^(guidelines|checks)\/|^(references|methods|compare|checks|glossary|search|fields(-by-[a-z-]+)?(-\d+)?)\.html$|\/samplings\//;

/** The pages of a site that are handed over on paper, in order of name: the farm, its fields, and whatever is worked out of them. */
export const printedPages = (files: readonly string[]): string[] =>
  files.filter((file) => file.endsWith(".html") && !notPrinted.test(file)).sort();

/** "fields/north/timeline.html" is fields_north_timeline.pdf. An id holds no underscore, so no two pages share a name. */
export const pdfName = (path: string): string => `${path.replace(/\.html$/, "").replaceAll("/", "_")}.pdf`;
