import { gpx as readGpx } from "@tmcw/togeojson";
import type { Element } from "@xmldom/xmldom";
import { DOMParser } from "@xmldom/xmldom";
import { describe, expect, it } from "vitest";
import type { Gpx } from "../../../src/exchange/cores/gpx.ts";
import { toGpx } from "../../../src/exchange/cores/gpx.ts";

const parse = (text: string) =>
  new DOMParser({
    onError: (_level: string, message: string) => {
      throw new Error(message);
    },
  }).parseFromString(text, "text/xml");

const plan: Gpx = {
  name: "North & South",
  about: "15 cores, 0 to 8 in",
  routes: [
    { name: "NO-A-2510-1", about: "Knoll", points: [{ at: [-37.6044841, 44.2005596], name: "A1" }, { at: [-37.603, 44.2012], name: "A2" }] },
    { name: "NO-B-2510-1", points: [{ at: [-37.601, 44.2], name: "B1", about: "first" }] },
  ],
};

/**
 * The order of elements in the GPX 1.1 schema, topografix.com/GPX/1/1/gpx.xsd (read): gpxType, metadataType, wptType and rteType are
 * sequences, so a child out of order is invalid; and each child comes at most once, but for those in `often` (maxOccurs unbounded).
 */
const order: Record<string, string[]> = {
  gpx: ["metadata", "wpt", "rte", "trk", "extensions"],
  metadata: ["name", "desc", "author", "copyright", "link", "time", "keywords", "bounds", "extensions"],
  wpt: ["ele", "time", "magvar", "geoidheight", "name", "cmt", "desc", "src", "link", "sym", "type", "fix", "sat", "hdop", "vdop", "pdop", "ageofdgpsdata", "dgpsid", "extensions"],
  rte: ["name", "cmt", "desc", "src", "link", "number", "type", "extensions", "rtept"],
};
order["rtept"] = order["wpt"]!;
const often = ["wpt", "rte", "trk", "rtept", "link"];
/** The same schema's attributes, all of them required; latitudeType is -90 to 90, longitudeType from -180 to below 180. */
const attributes: Record<string, string[]> = { gpx: ["version", "creator"], wpt: ["lat", "lon"], rtept: ["lat", "lon"], bounds: ["minlat", "minlon", "maxlat", "maxlon"] };

/** Every way in which a document breaks the rules of GPX 1.1 that a plan can touch. */
const offences = (text: string): string[] => {
  const found: string[] = [];
  const visit = (node: Element): void => {
    const { localName, namespaceURI } = node;
    if (namespaceURI !== "http://www.topografix.com/GPX/1/1") found.push(`${localName} is of no such namespace`);
    const children = [...node.childNodes].filter((c): c is Element => c.nodeType === 1);
    const allowed = order[localName!];
    const places = children.map((c) => (allowed ? allowed.indexOf(c.localName!) : -1));
    if (allowed && places.some((p) => p < 0)) found.push(`${localName} holds an unknown element`);
    if (!allowed && children.length > 0) found.push(`${localName} holds elements`);
    if (places.some((p, i) => i > 0 && p < places[i - 1]!)) found.push(`${localName} is out of order`);
    const names = children.map((c) => c.localName!);
    if (names.some((name, i) => !often.includes(name) && names.indexOf(name) < i)) found.push(`${localName} holds an element twice`);
    const wanted = attributes[localName!] ?? [];
    if (wanted.some((name) => !node.hasAttribute(name))) found.push(`${localName} lacks an attribute`);
    for (const { name, value, namespaceURI: space } of node.attributes) {
      if (!wanted.includes(name) && space === null) found.push(`${localName} has an unknown attribute`);
      const most = name.endsWith("lat") ? 90 : 180;
      // xsd:decimal: digits and a point, no exponent.
      if (/(lat|lon)$/.test(name) && !(/^-?\d+(\.\d+)?$/.test(value) && Math.abs(Number(value)) <= most && Number(value) !== 180)) found.push(`${localName} is no place`);
    }
    if (localName === "number" && !/^\d+$/.test(node.textContent ?? "")) found.push("number is none");
    children.forEach(visit);
  };
  const root = parse(text).documentElement!;
  if (root.getAttribute("version") !== "1.1" || !root.getAttribute("creator")) found.push("gpx needs version 1.1 and a creator");
  visit(root);
  return found;
};

describe("GPX", () => {
  it("keeps to the rules of GPX 1.1, and the check is not blind", () => {
    const text = toGpx(plan);
    expect(offences(text)).toEqual([]);
    expect(offences(text.replace("<name>NO-B-2510-1</name><number>2</number>", "<number>2</number><name>NO-B-2510-1</name>"))).toEqual(["rte is out of order"]);
    expect(offences(text.replace(' lon="-37.6010000"', ' lon="-370"'))).toEqual(["wpt is no place"]);
    expect(offences(text.replace("<name>A1</name>", "<name>A1</name><name>A1</name>"))).toEqual(["wpt holds an element twice"]);
    expect(offences(text.replace(' minlat="44.2000000"', ""))).toEqual(["bounds lacks an attribute"]);
    expect(offences(text.replace('<wpt lat', '<wpt id="1" lat'))).toEqual(["wpt has an unknown attribute"]);
    expect(offences(text.replace('<wpt lat="44.2012000"', '<wpt lat="4.42012e1"'))).toEqual(["wpt is no place"]);
    expect(offences(text.replace("GPX/1/1", "GPX/1/0"))).not.toEqual([]);
  });

  it("is these lines, each name and remark in its place and spelled for XML", () => {
    expect(toGpx({ ...plan, routes: [{ name: "A", about: "Knoll & <Apron>", points: [{ at: [-37.6, 44.2], name: "A1", about: "" }] }, { name: "B", points: [] }] }).split("\n").slice(2)).toEqual([
      '<metadata><name>North &amp; South</name><desc>15 cores, 0 to 8 in</desc><bounds minlat="44.2000000" minlon="-37.6000000" maxlat="44.2000000" maxlon="-37.6000000"/></metadata>',
      '<wpt lat="44.2000000" lon="-37.6000000"><name>A1</name></wpt>',
      "<rte><name>A</name><desc>Knoll &amp; &lt;Apron&gt;</desc><number>1</number>",
      '<rtept lat="44.2000000" lon="-37.6000000"><name>A1</name></rtept>',
      "</rte>",
      "<rte><name>B</name><number>2</number>",
      "</rte>",
      "</gpx>",
      "",
    ]);
    expect(toGpx({ name: "empty", routes: [] })).toContain("<metadata><name>empty</name></metadata>");
    expect(toGpx(plan)).toContain("<name>B1</name><desc>first</desc></wpt>");
  });

  it("stays a place by the schema's rules where rounding would reach longitude 180", () => {
    const text = toGpx({ name: "edge", routes: [{ name: "edge", points: [{ at: [179.99999999, 90], name: "A1" }, { at: [-180, -90], name: "A2" }] }] });
    expect(offences(text)).toEqual([]);
    expect(text).toContain('lat="90.0000000" lon="179.9999999"');
  });

  it("is read back by another program: every point, and the routes in walking order", () => {
    const { features } = readGpx(parse(toGpx(plan)));
    const points = features.filter((f) => f.geometry.type === "Point");
    expect(points.map((f) => [(f.properties as { name: string }).name, f.geometry])).toEqual(plan.routes.flatMap((r) => r.points).map((p) => [p.name, { type: "Point", coordinates: p.at }]));
    const [first] = features.filter((f) => f.geometry.type === "LineString");
    expect((first!.properties as { name: string }).name).toBe("NO-A-2510-1");
    expect(first!.geometry).toEqual({ type: "LineString", coordinates: plan.routes[0]!.points.map((p) => p.at) });
  });

  it("writes every name so that it is read as it was", () => {
    const name = `<b> & "it's" =1+1, é ü \u{1F33D}`;
    const document = parse(toGpx({ name, routes: [{ name, points: [{ at: [0, 0], name }] }] }));
    expect([...document.getElementsByTagName("name")].map((n) => n.textContent)).toEqual([name, name, name, name]);
  });

  it("replaces what XML cannot write, and refuses what is no place", () => {
    expect(parse(toGpx({ name: "a\u0000b\u001f\uFFFE", routes: [] })).getElementsByTagName("name")[0]!.textContent).toBe("a?b??");
    for (const at of [[180, 0], [0, 90.1], [NaN, 0], []]) expect(() => toGpx({ name: "x", routes: [{ name: "x", points: [{ at, name: "x" }] }] })).toThrow("no place on earth");
  });

  it("is well formed without a single point", () => {
    expect(offences(toGpx({ name: "empty", routes: [] }))).toEqual([]);
  });
});

it("says the corners that all its points lie between", () =>
  expect(toGpx(plan)).toContain('<bounds minlat="44.2000000" minlon="-37.6044841" maxlat="44.2012000" maxlon="-37.6010000"/>'));

it("takes no place that is none on earth", () => {
  const at = (longitude: number, latitude: number) => toGpx({ ...plan, routes: [{ name: "R", points: [{ at: [longitude, latitude], name: "A1" }] }] });
  expect(() => at(-180, 90)).not.toThrow();
  for (const [longitude, latitude] of [[180, 0], [-180.1, 0], [0, 90.1], [0, -90.1], [NaN, 0]] as const) expect(() => at(longitude, latitude)).toThrow(/no place on earth/);
});
