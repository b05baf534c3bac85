import { counted, plain } from "../../interpretation/show.ts";
import type { Farm, Sampling } from "../../records/model.ts";
import type { Fact } from "../fact.ts";
import { depth, listedPrice } from "../units.ts";
import { longDate } from "../words.ts";

/** How and with what a sampling was taken, as far as the record says. */
export const samplingFacts = (farm: Farm, sampling: Sampling): Fact[] => {
  const { handling } = sampling;
  const offered = sampling.lab.packages[sampling.packageId]!;
  const all: (Fact | undefined)[] = [
    { term: "Depth", value: depth(sampling.depth, farm.units) },
    { term: "Package", value: `${offered.name}${offered.fee === undefined ? "" : `, ${listedPrice(offered.fee, farm.currency)} a bag`}` },
    handling.tool ? { term: "Tool", value: handling.tool } : undefined,
    handling.pail ? { term: "Mixed in", value: `a ${handling.pail} pail` } : undefined,
    handling.bag ? { term: "Sent in", value: `${handling.bag} bags` } : undefined,
    handling.moisture ? { term: "Soil was", value: handling.moisture } : undefined,
    handling.keeping ? { term: "Bags kept", value: handling.keeping } : undefined,
    handling.receivedOn ? { term: "At the laboratory", value: longDate(handling.receivedOn) } : undefined,
    handling.reportedOn ? { term: "Reported", value: longDate(handling.reportedOn) } : undefined,
    ...reportFacts(farm, sampling),
    ...nitrateFacts(sampling),
    { term: "Record", value: sampling.file },
  ];
  return all.filter((f): f is Fact => f !== undefined);
};

/** The laboratory's report, by its number; and where it lies, where the site does not hold it. */
const reportFacts = (farm: Farm, { report }: Sampling): Fact[] => {
  const kept = report?.file !== undefined && !farm.publish.reports ? `kept as reports/${report.file}` : undefined;
  const words = [report?.number, kept].filter(Boolean).join(", ");
  return words === "" ? [] : [{ term: "Laboratory's report", value: words }];
};

/** What a nitrate rule asks of its sampling, as recorded. */
const nitrateFacts = ({ nitrate }: Sampling): Fact[] => {
  if (!nitrate) return [];
  const { cropHeight, hoursToLab, rainOfNormal, daysSinceRain, plannedNitrogen, cropNitrogen, shoots, greenAreaIndex } = nitrate;
  const all: (Fact | undefined)[] = [
    cropHeight && { term: "Height of the crop", value: `${plain(cropHeight.value)} ${cropHeight.unit}` },
    hoursToLab === undefined ? undefined : { term: "Time to the laboratory", value: counted(hoursToLab, "hour") },
    rainOfNormal === undefined ? undefined : { term: "Rain since April 1", value: `${plain(rainOfNormal)}% of normal` },
    daysSinceRain === undefined ? undefined : { term: "Since heavy rain", value: counted(daysSinceRain, "day") },
    cropNitrogen && { term: "Nitrogen in the crop", value: `${plain(cropNitrogen.value)} ${cropNitrogen.unit}` },
    shoots === undefined ? undefined : { term: "Shoots of the crop", value: `${plain(shoots)} per m²` },
    greenAreaIndex === undefined ? undefined : { term: "Green area index", value: plain(greenAreaIndex) },
    plannedNitrogen && { term: "Nitrogen planned before", value: `${plain(plannedNitrogen.value)} ${plannedNitrogen.unit}` },
  ];
  return all.filter((f): f is Fact => f !== undefined);
};
