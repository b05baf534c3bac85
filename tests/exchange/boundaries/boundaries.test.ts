import { zipSync } from "fflate";
import type { Polygon } from "geojson";
import { describe, expect, it } from "vitest";
import { readBoundaries } from "../../../src/exchange/boundaries/boundaries.ts";
import { BoundaryError } from "../../../src/exchange/boundaries/boundaryError.ts";
import { shapefile as written } from "../../../src/exchange/shapefile/shapefileWriter.ts";
import { bothGeoJson, bothGpx, bothKml, bytesOf, dbf, east, feature, geoJson, gpx, kml, placemark, route, shapefile, shp, track, utm, west, wgs84 } from "../../support/boundaryFiles.ts";

const read = (file: string, content: string | Uint8Array) => readBoundaries(typeof content === "string" ? bytesOf(content) : content, file);

/** The same bytes with another number at a place, as a fault of a disk would leave it. */
const withInt = (bytes: Uint8Array, place: number, value: number): Uint8Array => {
  const copy = Uint8Array.from(bytes);
  new DataView(copy.buffer).setInt32(place, value, true);
  return copy;
};

/** The one line a person is told; a file that is read is a mistake of the test. */
const refusalOf = (file: string, content: string | Uint8Array): string => {
  try {
    read(file, content);
  } catch (cause) {
    if (cause instanceof BoundaryError) return cause.message;
    throw cause;
  }
  throw new Error(`${file} was read`);
};

describe("boundaries", () => {
  it.each([
    ["zones.geojson", bothGeoJson],
    ["zones.kml", kml(placemark("West end", west) + placemark("east", east))],
    ["ZONES.JSON", `\ufeff${bothGeoJson}`],
    ["zones.kml", bothKml],
    ["walk.gpx", bothGpx],
    ["zones.zip", shapefile()],
  ])("of the same ground are the same from %s", (file, content) => {
    const { shapes } = read(file, content);
    expect(shapes.map((s) => s.area)).toEqual([west, east].map((ring) => ({ type: "Polygon", coordinates: [ring] })));
    expect([...shapes[0]!.properties.values()]).toContain("West end");
    expect([...shapes[1]!.properties.values()].join()).toMatch(/\b[Ee]ast\b/);
  });

  it("keep what names them, a number or a yes too, and no name that is blank or a list", () => {
    const [shape] = read("a.geojson", geoJson(feature({ zone: 2, mown: true, name: "  ", parts: ["a"], note: null }, west))).shapes;
    expect([...shape!.properties]).toEqual([["zone", "2"], ["mown", "true"]]);
  });

  it("are called by one line of what a terminal may show", () => {
    const [shape] = read("a.geojson", geoJson(feature({ name: "\u001b[31mwest\nb.yaml:1:1: all is well\u202e", zone: "west" }, west))).shapes;
    expect(shape!.called).toBe('"[31mwest b.yaml:1:1: all is well"');
  });

  // GeoJSON of 2008 (geojson.org/geojson-spec, 3): a crs may be null, of which nothing is known, and CRS84 is longitude and latitude in WGS 84.
  it.each([null, { type: "name", properties: { name: "urn:ogc:def:crs:OGC:1.3:CRS84" } }])("of a file of before RFC 7946 are read where its system is %j", (crs) =>
    expect(read("zones.geojson", JSON.stringify({ ...(JSON.parse(bothGeoJson) as object), crs })).shapes).toHaveLength(2));

  it("lose their heights, and it is said", () => expect(read("zones.kml", bothKml).notes).toEqual([{ kind: "heights" }]));

  it("turn as RFC 7946 asks: outer rings counterclockwise, holes clockwise", () => {
    const hole = [[-37.0035, 44.0005], [-37.0025, 44.0005], [-37.0025, 44.0015], [-37.0035, 44.0015], [-37.0035, 44.0005]];
    const { shapes, notes } = read("a.geojson", geoJson({ type: "Feature", properties: {}, geometry: { type: "Polygon", coordinates: [west.toReversed(), hole] } }));
    expect(shapes[0]!.area.coordinates).toEqual([west, hole.toReversed()]);
    expect(notes).toEqual([{ kind: "turned", count: 2 }]);
  });

  it("give a shapefile's hole to the polygon around it, whichever stands first", () => {
    const hole = [[-37.0015, 44.0005], [-37.0005, 44.0005], [-37.0005, 44.0015], [-37.0015, 44.0015], [-37.0015, 44.0005]];
    const { shapes } = read("a.zip", shapefile({ shp: shp([[hole, west.toReversed(), east.toReversed()]]), dbf: dbf("NAME", ["both"]) }));
    expect(shapes[0]!.area).toEqual({ type: "MultiPolygon", coordinates: [[west], [east, hole.toReversed()]] });
  });

  it("give a hole to the innermost polygon around it, as of an island in a pond", () => {
    const square = (reach: number) => [[-37 - reach, 44 - reach], [-37 + reach, 44 - reach], [-37 + reach, 44 + reach], [-37 - reach, 44 + reach], [-37 - reach, 44 - reach]];
    const [well, island, pond, field] = [0.0005, 0.001, 0.0015, 0.002].map(square) as [number[][], number[][], number[][], number[][]];
    const { shapes } = read("a.zip", shapefile({ shp: shp([[field.toReversed(), pond, island.toReversed(), well]]), dbf: dbf("NAME", ["both"]) }));
    expect(shapes[0]!.area).toEqual({ type: "MultiPolygon", coordinates: [[field, pond.toReversed()], [island, well.toReversed()]] });
  });

  it("lose no ring of a shapefile that encloses no ground, so that it is refused with the zone's name", () => {
    const flat = [[-37.001, 44], [-37.001, 44.001], [-37.001, 44.002], [-37.001, 44]];
    expect(read("a.zip", shapefile({ shp: shp([[west.toReversed(), flat]]), dbf: dbf("NAME", ["west"]) })).shapes[0]!.area.coordinates).toHaveLength(2);
  });

  it("of a program that turns every ring of a shapefile the other way are outer ones", () =>
    expect(read("a.zip", shapefile({ shp: shp([[west], [east]]) })).shapes.map((s) => s.area.coordinates)).toEqual([[west], [east]]));

  it("come back from the shapefiles that this program writes, holes and parts and names", () => {
    const hole = [[-37.0035, 44.0005], [-37.0035, 44.0015], [-37.0025, 44.0015], [-37.0025, 44.0005], [-37.0035, 44.0005]];
    const area = { type: "MultiPolygon" as const, coordinates: [[west, hole], [east]] };
    const files = written([{ name: "ZONE" }], [{ area, values: ["Böschung"] }], "2026-10-01");
    const { shapes } = read("a.zip", zipSync(Object.fromEntries(Object.entries(files).map(([ending, bytes]) => [`a.${ending}`, bytes]))));
    expect(shapes).toEqual([{ area, called: '"Böschung"', properties: new Map([["ZONE", "Böschung"]]) }]);
  });

  it("of a shapefile in capitals are read, beside what other programs leave in a zip", () => {
    const [shapes, names, prj, left] = [shp([[west.toReversed()]]), dbf("NAME", ["west"]), bytesOf(wgs84), bytesOf("x")];
    const zip = zipSync({ "out/": new Uint8Array(), "out/ZONES.SHP": shapes, "out/ZONES.DBF": names, "out/ZONES.PRJ": prj, "out/ZONES.shp.xml": left, "out/._ZONES.SHP": left, "__MACOSX/out/ZONES.SHP": left });
    expect(read("a.zip", zip).shapes).toEqual([{ area: { type: "Polygon", coordinates: [west] }, called: '"west"', properties: new Map([["NAME", "west"]]) }]);
  });

  it("of a shapefile with a table of several columns keep each by its name", () => {
    const columns = [{ name: "ID", decimals: 0 }, { name: "ZONE" }, { name: "AREA_ACRES", decimals: 2 }];
    const rows = [west, east].map((ring, i) => ({ area: { type: "Polygon" as const, coordinates: [ring] }, values: [i + 9, ["west", "the eastern end"][i], 8.5] }));
    const files = written(columns, rows, "2026-10-01");
    const { shapes } = read("a.zip", shapefile({ shp: files.shp, dbf: files.dbf }));
    expect(shapes.map((s) => Object.fromEntries(s.properties))).toEqual([{ ID: "9", ZONE: "west", AREA_ACRES: "8.50" }, { ID: "10", ZONE: "the eastern end", AREA_ACRES: "8.50" }]);
  });

  it("of a Western code page keep their letters", () =>
    expect(read("a.zip", shapefile({ dbf: dbf("NAME", [new Uint8Array([0x42, 0xf6, 0x68]), "east"]) })).shapes[0]!.properties.get("NAME")).toBe("Böh"));

  // The bytes are Python's codecs'; the names of encodings are those that GDAL 3.6 writes and reads in a .cpg, and the byte 29 of a head that it reads as CP1250.
  it.each([
    ["CP1250", "CP1250", "a3b96b61", 0],
    ["CP1250 by its number alone", "1250\r\n", "a3b96b61", 0],
    // As Esri's programs write it (from memory).
    ["CP1250 by another name", "ANSI 1250", "a3b96b61", 0],
    ["ISO 8859-2", "ISO-8859-2", "a3b16b61", 0],
    ["ISO 8859-2 without its hyphen", "88592", "a3b16b61", 0],
    ["UTF-8", "UTF-8", "c581c4856b61", 0x57],
    ["CP1250 by the table's head", undefined, "a3b96b61", 0xc8],
    ["UTF-8 under a head that is of another page", undefined, "c581c4856b61", 0xc8],
  ])("of a shapefile in %s keep their letters", (_, cpg, name, driver) => {
    const table = dbf("NAME", [Buffer.from(name, "hex"), "east"]).fill(driver, 29, 30);
    expect(read("a.zip", shapefile({ dbf: table, cpg: cpg === undefined ? undefined : bytesOf(cpg) })).shapes.map((s) => s.called)).toEqual(['"Łąka"', '"east"']);
  });

  it("of a shapefile in an encoding that nobody knows are read as Western", () =>
    expect(read("a.zip", shapefile({ dbf: dbf("NAME", [new Uint8Array([0x42, 0xf6, 0x68]), "east"]), cpg: bytesOf("of our own") })).shapes[0]!.called).toBe('"Böh"'));

  // Esri, "Shapefile Technical Description", July 1998: outer rings run clockwise, holes counterclockwise.
  it("of a shapefile are turned without a word, since each ran as its own format asks", () =>
    expect(read("a.zip", shapefile()).notes).toEqual([]));

  // dBASE table file format, table records: a row begins with a space, or with an asterisk once it is deleted; the .shp keeps its shape.
  it("of a shape that was deleted, and not yet packed away, are left out", () => {
    const names = dbf("ZONE", ["west", "east"]).fill(0x2a, 65, 66);
    expect(read("a.zip", shapefile({ dbf: names })).shapes.map((s) => s.called)).toEqual(['"east"']);
    expect(refusalOf("a.zip", shapefile({ dbf: Buffer.from(names).fill(0x2a, 86, 87) }))).toBe("holds no shape");
  });

  it("may have no more than three corners", () => {
    const corner = [west[0]!, west[1]!, west[2]!, west[0]!];
    expect(read("a.geojson", geoJson(feature({}, corner))).shapes[0]!.area.coordinates).toEqual([corner]);
  });

  // 0.0001 degrees of latitude are 11.1 m at 44 degrees: the meridian's degree there is 111.13 km.
  it("are closed over a short gap, and told how short", () => {
    const open = [...west.slice(0, -1), [-37.004, 44.0001]];
    const { shapes, notes } = read("walk.gpx", gpx(track("West end", open)));
    expect(shapes[0]!.area.coordinates[0]!).toEqual([...open, west[0]]);
    expect(notes).toEqual([{ kind: "closed", shape: '"West end"', meters: expect.closeTo(11.11, 1) as number }]);
  });

  it("of a walk in parts are joined over a short gap", () => {
    const { shapes, notes } = read("walk.gpx", gpx(track("West end", west.slice(0, 2), [[-37.002, 44.0001], ...west.slice(2)])));
    expect((shapes[0]!.area as Polygon).coordinates[0]).toHaveLength(6);
    expect(notes.map((n) => n.kind)).toEqual(["joined"]);
  });

  it("keep one of two equal positions, and seven decimals", () =>
    expect(read("a.geojson", geoJson(feature({}, [[-37.00400000004, 44], ...west]))).shapes[0]!.area.coordinates[0]).toEqual(west));

  it("beside points and lines are taken alone, and it is said", () => {
    const marks = [{ type: "Point", coordinates: [-37, 44] }, { type: "LineString", coordinates: west }].map((geometry) => ({ type: "Feature", properties: {}, geometry }));
    expect(read("a.geojson", geoJson(feature({}, west), ...marks)).notes).toEqual([{ kind: "passedOver", what: "point", count: 1 }, { kind: "passedOver", what: "line", count: 1 }]);
  });
});

const line = (type: string) => geoJson({ type: "Feature", properties: {}, geometry: { type, coordinates: type === "Point" ? [-37, 44] : west } });
const utf16 = (text: string) => new Uint8Array(Buffer.from(`\ufeff${text}`, "utf16le"));

describe("a file that cannot be used", () => {
  it.each<[string, string, string | Uint8Array, string]>([
    ["of another ending", "zones.txt", bothGeoJson, "is of a kind that is not read; give .geojson, .kml, .gpx, or a shapefile as .zip"],
    ["without an ending", "zones", bothGeoJson, "is of a kind that is not read; give .geojson, .kml, .gpx, or a shapefile as .zip"],
    ["named constructor", "a.constructor", bothGeoJson, "is of a kind that is not read; give .geojson, .kml, .gpx, or a shapefile as .zip"],
    ["zipped KML", "zones.kmz", "PK", "is of a kind that is not read; unzip it and give the .kml in it"],
    ["of a shapefile's parts", "zones.shp", "x", "is of a kind that is not read; give the .zip that holds the .shp with its .dbf and .prj"],
    ["empty", "zones.geojson", "", "is empty"],
    ["blank", "zones.kml", " \n", "is empty"],
    ["in UTF-16", "zones.kml", utf16(bothKml), "is UTF-16 text; save it as UTF-8"],
    ["in UTF-16 without its mark", "zones.geojson", utf16(bothGeoJson).subarray(2), "is not plain text (UTF-16, perhaps); save it as UTF-8"],
    ["in another encoding", "zones.kml", new Uint8Array([0x3c, 0xf6, 0x3e]), "is not UTF-8 text; save it as UTF-8"],
    ["that begins as UTF-16 and goes on otherwise", "zones.kml", new Uint8Array([0xfe, 0x3c]), "is not UTF-8 text; save it as UTF-8"],
    ["cut off", "zones.geojson", bothGeoJson.slice(0, 80), "is not valid JSON"],
    ["of JSON", "zones.geojson", "[1]", "is JSON and no GeoJSON: its type is missing"],
    ["projected", "zones.geojson", JSON.stringify({ ...(JSON.parse(bothGeoJson) as object), crs: { properties: { name: "EPSG:26915" } } }), "is not in WGS 84; export it again as WGS 84 longitude and latitude (EPSG:4326)"],
    ["in meters", "zones.geojson", geoJson(feature({ zone: "west" }, west.map(([x, y]) => [x! + 500_000, y! + 4_800_000]))), '"west" has the position 499963, 4800040, which is no longitude and latitude; export it again as WGS 84 (EPSG:4326)'],
    ["with latitude before longitude", "zones.geojson", geoJson(feature({}, west.map(([x, y]) => [y!, x! - 60]))), "shape 1 has the position 44, -97.004, which is no longitude and latitude; export it again as WGS 84 (EPSG:4326)"],
    ["with longitudes past 180", "zones.geojson", geoJson(feature({}, west.map(([x, y]) => [x! + 300, y!]))), "shape 1 has the position 262.996, 44, which is no longitude and latitude; export it again as WGS 84 (EPSG:4326)"],
    ["with a hole beside its polygon", "zones.zip", shapefile({ shp: shp([[west.toReversed(), east]]), dbf: dbf("NAME", ["a"]) }), "has a hole that lies in no polygon"],
    ["of words for numbers", "zones.geojson", '{"type":"Polygon","coordinates":[[["a",1]]]}', "shape 1 has a position that is no pair of numbers"],
    ["of points", "zones.geojson", line("Point"), "holds points and no polygon; draw each zone as a polygon"],
    ["of lines", "zones.geojson", line("LineString"), "holds lines and no polygon; draw each zone as a polygon, or give the walk as GPX"],
    ["of lines in several parts", "zones.geojson", geoJson({ type: "Feature", properties: {}, geometry: { type: "MultiLineString", coordinates: [west] } }), "holds lines and no polygon; draw each zone as a polygon, or give the walk as GPX"],
    ["of nothing", "zones.geojson", geoJson(), "holds no shape"],
    ["of a shape no one knows", "zones.geojson", '{"type":"Circle"}', "shape 1 has a geometry that cannot be read"],
    ["of a feature without a place", "zones.geojson", geoJson({ type: "Feature", properties: {}, geometry: null }), "holds no shape"],
    ["of a number for a geometry", "zones.geojson", geoJson({ type: "Feature", properties: {}, geometry: 5 }), "shape 1 has a geometry that cannot be read"],
    ["of a word for coordinates", "zones.geojson", '{"type":"Polygon","coordinates":"west"}', "shape 1 has a geometry that cannot be read"],
    ["of a polygon without a ring", "zones.geojson", '{"type":"Polygon","coordinates":[]}', "shape 1 has no boundary"],
    ["of half a position", "zones.geojson", '{"type":"Polygon","coordinates":[[[-37,null]]]}', "shape 1 has a position that is no pair of numbers"],
    ["of a position in words", "zones.geojson", '{"type":"Polygon","coordinates":[[["-37",44]]]}', "shape 1 has a position that is no pair of numbers"],
    ["of an image laid over the map", "zones.kml", kml("<GroundOverlay><name>photo</name><LatLonBox><north>44.1</north><south>44</south><east>-37</east><west>-37.1</west></LatLonBox></GroundOverlay>"), "holds no shape"],
    ["of collections without end", "zones.geojson", `${'{"type":"GeometryCollection","geometries":['.repeat(40)}${"]}".repeat(40)}`, "shape 1 has a geometry that cannot be read"],
    ["of two corners", "zones.geojson", geoJson(feature({}, [west[0]!, west[1]!, west[0]!])), "shape 1 has fewer than three corners"],
    ["far open", "walk.gpx", gpx(track("West end", west.slice(0, 4))), '"West end" ends 222 m from where it begins; at most 25 m are closed'],
    ["walked in far parts", "walk.gpx", gpx(track("West end", west.slice(0, 2), west.slice(2))), '"West end" was walked in parts that lie 222 m apart; at most 25 m are joined'],
    ["of too many corners", "zones.geojson", geoJson(feature({}, Array.from({ length: 20_001 }, (_, i) => [i / 1000, i % 2]))), "has more than 20,000 corners; simplify the drawing first"],
    ["of broken XML", "zones.kml", bothKml.replace("</Document>", ""), "is not valid XML (near line 2)"],
    ["that is none at all", "zones.kml", "{}", "is not valid XML"],
    ["of an attribute without quotes", "walk.gpx", gpx("<trk a=b></trk>"), "is not valid XML (near line 2)"],
    ["of other XML", "zones.kml", "<svg/>", "is XML and no KML: its outermost element is not <kml>"],
    ["with a network link", "zones.kml", kml(`<NetworkLink><Link><href>http://127.0.0.1/more.kml</href></Link></NetworkLink>${placemark("west", west)}`), "points to another file by a network link, which is not fetched; export the polygons themselves"],
    ["with an external entity", "zones.kml", `<!DOCTYPE kml [<!ENTITY x SYSTEM "file:///etc/hostname">]>${kml(placemark("&x;", west)).slice(39)}`, "declares a document type (DOCTYPE), which is refused; export it again without"],
    ["of degrees and minutes", "zones.kml", kml(placemark("west", west).replace("-37.004,44 ", "37°W,44 ")), 'has coordinates that cannot be read: "37°W,44"'],
    ["of a track point without a place", "walk.gpx", gpx(track("west", west).replace('lat="44"', "")), "has a track point without a latitude and longitude in degrees"],
    ["of a route point without a place", "walk.gpx", gpx(route("west", west).replace('lon="-37.004"', 'lon="west"')), "has a route point without a latitude and longitude in degrees"],
    ["of coordinates without a latitude", "zones.kml", kml(placemark("west", west).replace("-37.004,44 ", "-37.004 ")), 'has coordinates that cannot be read: "-37.004"'],
    ["of coordinates with a number too many", "zones.kml", kml(placemark("west", west).replace("-37.004,44 ", "-37.004,44,1,2 ")), 'has coordinates that cannot be read: "-37.004,44,1,2"'],
    ["of waypoints", "walk.gpx", gpx('<wpt lat="44" lon="-37"/>'), "holds points and no polygon; draw each zone as a polygon"],
    ["that is no zip", "zones.zip", "x", "is no zip file"],
    ["that only begins as a zip", "zones.zip", "Px", "is no zip file"],
    ["that only goes on as a zip", "zones.zip", "xK", "is no zip file"],
    ["of one shapefile in two folders", "zones.zip", zipSync({ "old/a.shp": bytesOf("x"), "new/a.shp": bytesOf("x") }), "holds a.shp twice; give one shapefile"],
    ["of a zip without a shapefile", "zones.zip", zipSync({ "a.txt": bytesOf("x") }), "holds no shapefile (.shp)"],
    ["of two shapefiles", "zones.zip", zipSync({ "a.shp": bytesOf("x"), "b.shp": bytesOf("x") }), "holds 2 shapefiles; give one that holds the zones"],
    // Blocks of type 3 are none that DEFLATE has (RFC 1951, 3.2.3).
    ["of a zip whose first part cannot be unpacked", "zones.zip", shapefile().fill(7, 30 + "export/zones.shp".length, 31 + "export/zones.shp".length), "is a zip file that is broken or cut off"],
    ["of a shapefile without .prj", "zones.zip", shapefile({ prj: undefined }), "has no .prj file beside its .shp, so its coordinates may be anything; export it again as WGS 84 (EPSG:4326) with the .prj"],
    ["of a projected shapefile", "zones.zip", shapefile({ prj: bytesOf(utm) }), 'is in "WGS_1984_UTM_Zone_15N"; export it again as WGS 84 longitude and latitude (EPSG:4326)'],
    ["of another datum", "zones.zip", shapefile({ prj: bytesOf('GEOGCS["GCS_North_American_1927",DATUM["D_North_American_1927"]]') }), 'is in "GCS_North_American_1927"; export it again as WGS 84 longitude and latitude (EPSG:4326)'],
    ["of a half .shp", "zones.zip", shapefile({ shp: shp([[west]]).subarray(0, 150) }), "has a .shp that is not whole"],
    // The second ring of the first record begins at its place 56 in the record, 156 in the file.
    ...[-1, 0, 11].map((start): [string, string, Uint8Array, string] => [`of a ring that begins at corner ${start}`, "zones.zip", shapefile({ shp: withInt(shp([[west.toReversed(), east.toReversed()]]), 156, start), dbf: dbf("NAME", ["a"]) }), "has a .shp that is not whole"]),
    ["of no ring", "zones.zip", shapefile({ shp: withInt(shp([[west], [east]]), 144, 0) }), "has a .shp that is not whole"],
    ["of more rings than corners", "zones.zip", shapefile({ shp: withInt(shp([[west], [east]]), 144, 6) }), "has a .shp that is not whole"],
    ["of shapes in 3D patches", "zones.zip", shapefile({ shp: shp([[west]], 31) }), "holds shapes of a kind that is not read (31); export polygons"],
    ["of lines in a shapefile", "zones.zip", shapefile({ shp: shp([[west], [east]], 3) }), "holds lines and no polygon; draw each zone as a polygon, or give the walk as GPX"],
    ["of a zip with a password", "zones.zip", Buffer.from(shapefile()).fill(1, 6, 7), "is a zip file with a password; pack it anew without one"],
    ["of a zip packed by bzip2", "zones.zip", Buffer.from(shapefile()).fill(12, 8, 9), "is a zip file packed in a way that is not read; pack it anew as an ordinary zip"],
    ["in a system nested without end", "zones.geojson", `{"type":"FeatureCollection","crs":${"[".repeat(100_000)}${"]".repeat(100_000)},"features":[]}`, "is not in WGS 84; export it again as WGS 84 longitude and latitude (EPSG:4326)"],
    ["of a half .dbf", "zones.zip", shapefile({ dbf: dbf("NAME", ["a", "b"]).subarray(0, 90) }), "has a table of names (.dbf) that is not whole"],
    ["of a .dbf without its header", "zones.zip", shapefile({ dbf: dbf("NAME", ["a", "b"]).subarray(0, 10) }), "has a table of names (.dbf) that is not whole"],
    ["of a .dbf without a column", "zones.zip", shapefile({ dbf: dbf("NAME", ["a", "b"]).fill(13, 32, 33) }), "has a table of names (.dbf) that is not whole"],
    ["of a .dbf whose column is wider than its rows", "zones.zip", shapefile({ dbf: dbf("NAME", ["a", "b"]).fill(21, 48, 49) }), "has a table of names (.dbf) that is not whole"],
    ["of a name too few", "zones.zip", shapefile({ dbf: dbf("NAME", ["a"]) }), "has 2 shapes and 1 rows of names; export it again"],
  ])("%s is refused in one line", (_, file, content, message) => {
    expect(refusalOf(file, content)).toBe(message);
    expect(message).not.toMatch(/\n/);
  });

  // Cut within the head of its last part, a zip once lost that part without a word: with the names, zones go by their order.
  it("is a zip cut anywhere, whichever of its parts stands last; one with a comment at its end is whole", () => {
    const { prj, ...others } = { shp: shp([[west.toReversed()]]), prj: bytesOf(wgs84), dbf: dbf("ZONE", ["west"]) };
    for (const parts of [{ prj, ...others }, { ...others, prj }]) {
      const zip = zipSync(Object.fromEntries(Object.entries(parts).map(([ending, bytes]) => [`a.${ending}`, bytes])));
      const commented = Buffer.concat([zip, Buffer.alloc(65_535, "x")]);
      commented.writeUInt16LE(65_535, zip.length - 2);
      for (const whole of [zip, commented]) expect(read("a.zip", whole).shapes.map((s) => s.called)).toEqual(['"west"']);
      for (let length = 2; length < zip.length; length++) expect(refusalOf("a.zip", zip.subarray(0, length)), `${length} of ${zip.length}`).toBe("is a zip file that is broken or cut off");
    }
  });

  it("of 50 MB is refused unread, and one that unpacks to more is stopped on its way", () => {
    expect(refusalOf("zones.kml", new Uint8Array(50_000_000))).toBe("is larger than 10 MB, too large for the zones of a field");
    const bomb = zipSync({ "a.shp": new Uint8Array(30_000_000), "a.prj": bytesOf("x") }, { level: 9 });
    expect(bomb.length).toBeLessThan(1_000_000);
    expect(refusalOf("zones.zip", bomb)).toBe("unpacks to more than 20 MB, too large for the zones of a field");
  });
});
