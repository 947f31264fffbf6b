import { nitrogenDensityMolPerM3, nitrogenPressureAbsPa } from "../nitrogen";
import { type LeakPosterior, leakPosterior, logOddsKeptUp } from "./leak-posterior";
import { chanceBelow, moments, type NormalMixture, quantile } from "./normal-mixture";
import { type Observations, observe } from "./observations";
import type { PressureTestRecord } from "./record";
import { cleanSeries, type PressureSeries } from "./series";
import { readAir } from "./thermometer";

const LEAST_KEPT = 12;
const USUAL_COUPLING = 0.8;
/** Share of the pressure lost in an hour down to which a leak is the likelier the smaller it is. Chosen. */
const SMALL_LEAK_PER_S = 0.001 / 3600;

export interface LeakEstimate {
  /** Below zero when gas seems to have come in. */
  readonly meanPaPerS: number;
  readonly paPerS: number;
  readonly interval95PaPerS: readonly [number, number];
  /** Chance that the leak is above a rate, given that it cannot be below zero. */
  readonly chanceAbove: (paPerS: number) => number;
  /** The same where large leaks are as much rarer as they are larger: what an accusation asks for. */
  readonly chanceLosing: (paPerS: number) => number;
  /** Chance that the change is below a rate, gains included. */
  readonly chanceBelow: (paPerS: number) => number;
  /** Chance that gas came in rather than went out, were that allowed. */
  readonly chanceGain: number;
  /** Logarithm of the odds that something keeps the pressure up, against a circuit that loses less than a rate. */
  readonly logOddsKeptUp: (limitPaPerS: number) => number;
  readonly posterior: LeakPosterior;
  readonly series: PressureSeries;
  readonly observations: Observations;
  readonly paPerK: number;
}

/** Leak with its interval from at least three readings, over every thermal history that fits them. */
export function estimateLeak(
  record: PressureTestRecord,
  extra?: (series: PressureSeries) => Float64Array,
): LeakEstimate {
  const shown = untilFallen(cleanSeries(record));
  const air = readAir(shown.timeS, shown.temperatureK);
  const series = asAmount({ ...shown, temperatureK: air.temperatureK });
  const observations = observe(series, record.gauge.resolutionPa);
  const paPerK = pressurePerKelvin(series.pressureAbsPa[0]!, series.temperatureK[0]!);
  const input = {
    series,
    observations,
    atmosphericPa: record.atmosphericPa,
    paPerK,
    thermometer: air.errorAtLag,
    ...(extra && { extra: extra(series) }),
  };
  const posterior = leakPosterior(input);
  const slopePaPerS = USUAL_COUPLING * paPerK * air.slopeErrorKPerS;
  const leak = withInstrumentErrors(posterior.leak, record.gauge.accuracyFraction, slopePaPerS);
  const logOdds = (limitPaPerS: number) => logOddsKeptUp(input, posterior, limitPaPerS);
  const rarer = rarerWhenLarge(leak, SMALL_LEAK_PER_S * series.pressureAbsPa[0]!);
  return { ...summary(leak, rarer), logOddsKeptUp: logOdds, posterior, series, observations, paPerK };
}

/** Every rate is given its chance in the end that the other belief would not: a pass needs the one, an accusation the other. */
function summary(leak: NormalMixture, rarer: NormalMixture) {
  const chanceGain = chanceBelow(leak, 0);
  const low = chanceBelow(rarer, 0) > 0.025 ? 0 : Math.max(0, quantile(rarer, 0.025));
  const high = low > 0 ? quantile(leak, 0.975) : Math.max(quantile(leak, 0.95, 0), 0);
  const meanPaPerS = moments(rarer).mean;
  const paPerS = Math.min(Math.max(meanPaPerS, low), high);
  const chanceAbove = (limit: number) => (1 - chanceBelow(leak, limit)) / Math.max(1 - chanceGain, 1e-12);
  return {
    meanPaPerS,
    paPerS,
    interval95PaPerS: [low, high] as const,
    chanceAbove,
    chanceLosing: (rate: number) => 1 - chanceBelow(rarer, rate),
    chanceGain,
    chanceBelow: (rate: number) => chanceBelow(leak, rate),
  };
}

/** Leaks are spread over decades: rates ten times as large are about ten times as rare in each unit of rate. */
function rarerWhenLarge(leak: NormalMixture, smallPaPerS: number): NormalMixture {
  const size = (index: number) => Math.hypot(leak.mean[index]!, leak.sd[index]!, smallPaPerS);
  return { ...leak, weight: leak.weight.map((weight, index) => weight / size(index)) };
}

/**
 * A gauge that reads one percent high shows a leak one percent too large; its limit is taken as evenly spread. Air whose
 * slope is read wrong makes a leak where there is none.
 */
function withInstrumentErrors(leak: NormalMixture, accuracyFraction: number, slopePaPerS: number): NormalMixture {
  const spread = accuracyFraction / Math.sqrt(3);
  return { ...leak, sd: leak.sd.map((sd, index) => Math.hypot(sd, spread * leak.mean[index]!, slopePaPerS)) };
}

/** The start of the record, until a tenth of the gas is gone: further on, the flow through the leak is another one. */
function untilFallen(series: PressureSeries): PressureSeries {
  const { timeS, pressureAbsPa, temperatureK } = series;
  const limitPa = 0.9 * pressureAbsPa[0]!;
  let end = pressureAbsPa.length;
  while (end > LEAST_KEPT && pressureAbsPa[end - 1]! < limitPa) end--;
  return {
    timeS: timeS.subarray(0, end),
    pressureAbsPa: pressureAbsPa.subarray(0, end),
    temperatureK: temperatureK.subarray(0, end),
    strays: series.strays,
  };
}

/** Pressures turned so that they fall in proportion to the gas lost: nitrogen is not quite ideal. */
function asAmount(series: PressureSeries): PressureSeries {
  const startPa = series.pressureAbsPa[0]!;
  const startK = series.temperatureK[0]!;
  const stepPa = 0.05 * startPa;
  const density = (pressurePa: number) => nitrogenDensityMolPerM3(pressurePa, startK);
  const below = density(startPa - stepPa);
  const at = density(startPa);
  const above = density(startPa + stepPa);
  const bend = (above - 2 * at + below) / 2 / stepPa ** 2 / ((above - below) / 2 / stepPa);
  return { ...series, pressureAbsPa: series.pressureAbsPa.map((pa) => pa + bend * (pa - startPa) ** 2) };
}

/** Slope of pressure with temperature in Pa/K for nitrogen shut in. */
export function pressurePerKelvin(pressureAbsPa: number, temperatureK: number): number {
  const density = nitrogenDensityMolPerM3(pressureAbsPa, temperatureK);
  return (nitrogenPressureAbsPa(density, temperatureK + 5) - nitrogenPressureAbsPa(density, temperatureK - 5)) / 10;
}
