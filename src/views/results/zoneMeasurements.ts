import type { Measurement } from "../../interpretation/measurement.ts";
import { meanOfBags } from "../../interpretation/measurement.ts";
import type { Sampling } from "../../records/model.ts";

const measured = new WeakMap<Sampling, Map<string, readonly Measurement[]>>();

/** One measurement an analyte: the mean where several bags were taken from the zone that day. Worked out once a sampling and zone. */
export const zoneMeasurements = (sampling: Sampling, zone: string): readonly Measurement[] => {
  let zones = measured.get(sampling);
  if (!zones) measured.set(sampling, (zones = new Map<string, readonly Measurement[]>()));
  let known = zones.get(zone);
  if (!known) zones.set(zone, (known = meansOfZone(sampling, zone)));
  return known;
};

const meansOfZone = (sampling: Sampling, zone: string): Measurement[] => {
  const byTest = new Map<string, [Measurement, ...Measurement[]]>();
  for (const composite of sampling.composites.filter((c) => c.zone === zone))
    for (const m of composite.measurements) {
      const key = `${m.analyte} ${m.method} ${m.finish ?? ""}`;
      const bags = byTest.get(key);
      if (bags) bags.push(m);
      else byTest.set(key, [m]);
    }
  return [...byTest.values()].map(meanOfBags);
};
