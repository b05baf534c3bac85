import { describe, expect, it } from "vitest";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import type { CautionId } from "../../src/interpretation/cautions.ts";
import { cautionIds, cautions, samplingCautions } from "../../src/interpretation/cautions.ts";
import { zoneAdviceView } from "../../src/views/advice/adviceView.ts";
import { cautionViews } from "../../src/views/advice/cautionViews.ts";
import type { ZoneAdvice } from "../../src/views/advice/sample.ts";
import { latestAdvice } from "../../src/views/advice/sample.ts";
import { library } from "../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const zones = demo.fields.flatMap((field) => field.zones.flatMap((zone) => latestAdvice(demo, field, zone) ?? []));
/** A zone whose advice bears cautions beside its rows. */
const full = zones.find((z) => zoneAdviceView(demo, z).rows.some((r) => r.cautions !== undefined))!;
const calling = (id: CautionId): ZoneAdvice => ({ ...full, advice: { ...full.advice, cautions: [id] } });

describe("a caution that is called for", () => {
  it.each(cautionIds.filter((id) => !samplingCautions.includes(id)))("%s is on the page of its field, in its own words", (id) => {
    const [view] = cautionViews([calling(id)]);
    expect(JSON.stringify(view)).toContain(JSON.stringify(cautions[id].text).slice(1, -1));
  });
  it.each(samplingCautions)("%s is on every page that asks for samples", (id) => expect(JSON.stringify(cautionViews([], true))).toContain(cautions[id].text));
  it("is on a page of the demo farm without further ado, and one that is not called for is not", () => {
    const shown = JSON.stringify(cautionViews(zones));
    for (const id of cautionIds) expect(shown.includes(cautions[id].text), id).toBe(zones.some((z) => z.advice.cautions.includes(id)));
  });
});
