export interface ReadmeFacts {
  readonly farm: string;
  readonly about?: string | undefined;
  /** What was left out for one reader, in a sentence; absent: nothing, and the records are in the bundle. */
  readonly excerpt?: string | undefined;
  /** `YYYY-MM-DD` */
  readonly today: string;
  /** First and last year of a sampling; absent: none yet. */
  readonly years?: readonly [string, string] | undefined;
  readonly fields: readonly string[];
}

/** README.txt of a bundle: what this is, how to open it and how to prove it whole, for someone who has neither this program nor a network. */
export const bagReadme = ({ farm, about, excerpt, today, years, fields }: ReadmeFacts): string => {
  const paragraph = (text: string | undefined): string => (text === undefined ? "" : `\n${wrapped(text)}\n`);
  const holds = years ? `soil samplings ${years[0] === years[1] ? `of ${years[0]}` : `from ${years[0]} to ${years[1]}`}` : "the records";
  const whose = `${fields.length} ${fields.length === 1 ? "field" : "fields"} (${fields.join(", ")})`;
  return `${farm}: the history of its fields
${paragraph(about)}${paragraph(excerpt)}
${wrapped(`This folder holds ${holds} of ${whose}, and what published guidelines said of them. It tells how things stood on ${today}: advice, due dates and any prices are as they stood on that day.`)}

HOW TO READ IT
  Open data/site/index.html in any web browser. No network, account or
  program is needed; it also prints.

WHERE THE NUMBERS ARE
  data/site/data/*.csv    the laboratory results and nutrient balances, as
                          tables: text with commas, one line a result
  data/datapackage.json   what each column of those tables means, and its unit
${excerpt === undefined ? whereTheRecordsAre : ""}
WHAT THE WORDS MEAN
  Every number names its source, and how well it is known:
    read        it was read in the publication itself
    secondary   another text repeats it
    derived     it follows by arithmetic
    memory      it was only remembered; check it before use
  A result with "<" lay below what the laboratory could measure.
  A rate is a reading of published guidelines, not a permit. Local codes,
  nutrient management law and licensed practice come first.

IS IT STILL WHOLE?
  manifest-sha512.txt lists every file with its SHA-512 checksum. In this
  folder, on most systems with a command line:
    sha512sum -c manifest-sha512.txt
    sha512sum -c tagmanifest-sha512.txt
  (or: shasum -a 512 -c manifest-sha512.txt). Every line should end in OK.
  This shows damage and slips. Whoever changes a file on purpose can change
  the list as well.

WHAT IT IS MADE OF
  A BagIt 1.0 bag (RFC 8493). Pages: HTML. Tables: CSV (RFC 4180), described
  as a Data Package with Table Schema. ${excerpt === undefined ? "Records: YAML 1.2 and GeoJSON (RFC\n  7946). " : ""}All text is UTF-8.
`;
};

const whereTheRecordsAre = `  data/records/own/       the records they were made from, as plain text:
                          fields, samplings, seasons, laboratories, advice as
                          it was issued. Outlines of zones are in zones.geojson,
                          longitude and latitude in degrees (WGS 84). In
                          reports/ lie the laboratories' reports as they came,
                          where the farm keeps them.
  data/records/installed/ the published guidelines and the list of publications
                          that were used and are not among the farm's records
`;

/** Lines of at most 76 characters, for a plain text window. */
const wrapped = (text: string): string => {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/)) {
    if (line !== "" && line.length + 1 + word.length > 76) {
      lines.push(line);
      line = "";
    }
    line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line].join("\n");
};
