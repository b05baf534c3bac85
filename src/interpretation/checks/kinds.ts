import { acidityMultipleCheck } from "./acidityMultipleCheck.ts";
import { acidityTableCheck } from "./acidityTableCheck.ts";
import { balanceCheck } from "./balanceCheck.ts";
import { bandRatesCheck } from "./bandRatesCheck.ts";
import { baseShareCheck } from "./baseShareCheck.ts";
import { bandsCheck } from "./bandsCheck.ts";
import { linearYieldCheck } from "./linearYieldCheck.ts";
import { bufferAcidityCheck } from "./bufferAcidityCheck.ts";
import { bufferTableCheck } from "./bufferTableCheck.ts";
import { buildMaintainCheck } from "./buildMaintainCheck.ts";
import { cationSumCheck } from "./cationSumCheck.ts";
import type { CheckKind } from "./check.ts";
import { conversionCheck } from "./conversionCheck.ts";
import { indexConversionsCheck, indexOfftakeCheck } from "./indexOfftakeCheck.ts";
import { limeCheck } from "./limeCheck.ts";
import { limeClassCheck } from "./limeClassCheck.ts";
import { limeFactorCheck } from "./limeFactorCheck.ts";
import { limeQualityCheck } from "./limeQualityCheck.ts";
import { legumeCreditCheck } from "./legumeCreditCheck.ts";
import { manureAvailabilityCheck } from "./manureAvailabilityCheck.ts";
import { nitrateLinearCheck } from "./nitrateLinearCheck.ts";
import { nitrateTableCheck } from "./nitrateTableCheck.ts";
import { nitrogenNeedCheck } from "./nitrogenNeedCheck.ts";
import { nitrogenSupplyCheck } from "./nitrogenSupplyCheck.ts";
import { phAluminumCheck } from "./phAluminumCheck.ts";
import { productsCheck } from "./productsCheck.ts";
import { profileNitrateCheck } from "./profileNitrateCheck.ts";
import { quadraticIndexCheck } from "./quadraticIndexCheck.ts";
import { removalCheck } from "./removalCheck.ts";
import { samplingSpecCheck } from "./samplingSpecCheck.ts";
import { samplingDepthCheck } from "./samplingDepthCheck.ts";
import { seedRowLimitCheck } from "./seedRowLimitCheck.ts";
import { starterShareCheck } from "./starterShareCheck.ts";
import { targetPhCheck } from "./targetPhCheck.ts";
import { oxidesCheck, sumsCheck, unitsCheck } from "./unitsCheck.ts";
import { coresNeededCheck, precisionCheck } from "./coresNeededCheck.ts";
import { detectableSlopeCheck } from "./detectableSlopeCheck.ts";
import { marginCheck } from "./marginCheck.ts";
import { noiseCheck } from "./noiseCheck.ts";
import { testingCostCheck, testingValueCheck } from "./testingCheck.ts";
import { smallestCheck, tailsCheck, trendCheck } from "./trendCheck.ts";
import { zoneVarianceCheck } from "./zoneVarianceCheck.ts";
import { yieldLessNitrateCheck } from "./yieldLessNitrateCheck.ts";

/**
 * Every kind of check value that the site works out for itself, by the same functions that the tests call.
 * A file of cases that is not named here is worked out in the test run only, and the page says so.
 */
export const checkKinds = [
  bandsCheck,
  bandRatesCheck,
  linearYieldCheck,
  buildMaintainCheck,
  indexOfftakeCheck,
  quadraticIndexCheck,
  removalCheck,
  samplingDepthCheck,
  balanceCheck,
  targetPhCheck,
  bufferTableCheck,
  bufferAcidityCheck,
  acidityMultipleCheck,
  acidityTableCheck,
  phAluminumCheck,
  limeFactorCheck,
  limeClassCheck,
  limeQualityCheck,
  limeCheck,
  cationSumCheck,
  baseShareCheck,
  conversionCheck,
  productsCheck,
  starterShareCheck,
  seedRowLimitCheck,
  nitrateLinearCheck,
  nitrateTableCheck,
  yieldLessNitrateCheck,
  profileNitrateCheck,
  nitrogenNeedCheck,
  nitrogenSupplyCheck,
  legumeCreditCheck,
  manureAvailabilityCheck,
  samplingSpecCheck,
  trendCheck,
  tailsCheck,
  smallestCheck,
  noiseCheck,
  marginCheck,
  coresNeededCheck,
  precisionCheck,
  detectableSlopeCheck,
  zoneVarianceCheck,
  testingCostCheck,
  testingValueCheck,
  unitsCheck,
  oxidesCheck,
  sumsCheck,
  indexConversionsCheck,
] as unknown as readonly CheckKind[];
