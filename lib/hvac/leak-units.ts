import { err, ok, type Result } from "@/lib/result";
import { findRefrigerant } from "./refrigerants/refrigerant";
import { fromPa, GAS_CONSTANT_J_PER_MOL_K, micronToPa, STANDARD_ATMOSPHERE_PA } from "./units";

/**
 * One leak in other words. A throughput is a flow of gas in Pa m3/s at a stated temperature; its reference here is
 * 20 C unless one is given.
 */
export const LEAK_REFERENCE_K = 293.15;

const LITRES_PER_M3 = 1000;
const SECONDS_PER_MINUTE = 60;
/** Julian year, as in the sheet's grams a year. */
const SECONDS_PER_YEAR = 365.25 * 86_400;
/** At 20 C, within 3 %. @source handbook values from memory */
const AIR_VISCOSITY_PA_S = 18.2e-6;
const VISCOSITY_PA_S: Readonly<Record<string, number>> = {
  "R-410A": 13.3e-6,
  "R-134a": 11.8e-6,
  "R-32": 12.5e-6,
  "R-22": 12.4e-6,
  "R-290": 8.0e-6,
};
/** Where no value is at hand: the middle of the halocarbons above. [own choice] */
const TYPICAL_VISCOSITY_PA_S = 12.5e-6;

export type LeakUnitError =
  | { readonly code: "volume-not-positive"; readonly internalVolumeM3: number }
  | { readonly code: "unknown-refrigerant"; readonly refrigerant: string }
  | { readonly code: "pressure-not-above-outside"; readonly pressureAbsPa: number };

/** 1 Pa m3/s = 10 mbar L/s. @source Umrath, Fundamentals of Vacuum Technology, unit table */
export function toMbarLitrePerS(throughputPaM3PerS: number): number {
  return fromPa(throughputPaM3PerS, "mbar") * LITRES_PER_M3;
}
export function fromMbarLitrePerS(mbarLitrePerS: number): number {
  return (mbarLitrePerS * 100) / LITRES_PER_M3;
}
export function toPaLitrePerS(throughputPaM3PerS: number): number {
  return throughputPaM3PerS * LITRES_PER_M3;
}
export function fromPaLitrePerS(paLitrePerS: number): number {
  return paLitrePerS / LITRES_PER_M3;
}

/** Throughput in Pa m3/s behind a rise in a closed volume: Q = V dp/dt, at the temperature of the gas. */
export function throughputOfRise(riseMicronPerMin: number, internalVolumeM3: number): Result<number, LeakUnitError> {
  if (!(internalVolumeM3 > 0)) return err({ code: "volume-not-positive", internalVolumeM3 });
  return ok((micronToPa(riseMicronPerMin) / SECONDS_PER_MINUTE) * internalVolumeM3);
}

/** Rise in micron a minute that a throughput makes in a closed volume. */
export function riseOfThroughput(throughputPaM3PerS: number, internalVolumeM3: number): Result<number, LeakUnitError> {
  if (!(internalVolumeM3 > 0)) return err({ code: "volume-not-positive", internalVolumeM3 });
  return ok((fromPa(throughputPaM3PerS, "micron") * SECONDS_PER_MINUTE) / internalVolumeM3);
}

/** Mass flow in kg/s of a throughput: Q M / (R T). `temperatureK` is the throughput's reference. */
export function massFlowKgPerS(
  throughputPaM3PerS: number,
  molarMassKgPerMol: number,
  temperatureK = LEAK_REFERENCE_K,
): number {
  return (throughputPaM3PerS * molarMassKgPerMol) / (GAS_CONSTANT_J_PER_MOL_K * temperatureK);
}

/** Throughput in Pa m3/s of a yearly loss. */
export function throughputOfYearlyLoss(
  lossKgPerYear: number,
  molarMassKgPerMol: number,
  temperatureK = LEAK_REFERENCE_K,
): number {
  return ((lossKgPerYear / SECONDS_PER_YEAR) * GAS_CONSTANT_J_PER_MOL_K * temperatureK) / molarMassKgPerMol;
}

/** Moles a second into a closed volume between two states. @source 40 CFR 1065.644, vacuum-decay leak rate */
export function molarInflowPerS(
  internalVolumeM3: number,
  first: { readonly pressureAbsPa: number; readonly temperatureK: number },
  last: { readonly pressureAbsPa: number; readonly temperatureK: number },
  durationS: number,
): number {
  const changePaPerK = last.pressureAbsPa / last.temperatureK - first.pressureAbsPa / first.temperatureK;
  return (internalVolumeM3 / GAS_CONSTANT_J_PER_MOL_K) * (changePaPerK / durationS);
}

/** The two sides of a hole and what flows through it. */
export interface FlowThroughHole {
  readonly insidePa: number;
  readonly outsidePa: number;
  readonly viscosityPaS: number;
}

/**
 * How many times more throughput the same hole passes, in laminar viscous flow.
 * @source Q = K (P1^2 - P2^2) / viscosity, leak testing manual; laminar above about 1e-5 Pa m3/s
 */
export function viscousRatio(from: FlowThroughHole, to: FlowThroughHole): number {
  const drive = ({ insidePa, outsidePa }: FlowThroughHole) => insidePa ** 2 - outsidePa ** 2;
  return (from.viscosityPaS / to.viscosityPaS) * (drive(to) / drive(from));
}

/**
 * Refrigerant lost in kg a year through the hole that lets this much air into the evacuated circuit.
 *
 * An order of magnitude: the hole is taken as one laminar capillary, the circuit as always at `pressureAbsPa`.
 * @param airThroughputPaM3PerS air from one atmosphere into vacuum
 */
export function yearlyLossKg(
  airThroughputPaM3PerS: number,
  refrigerantName: string,
  pressureAbsPa: number,
): Result<number, LeakUnitError> {
  const refrigerant = findRefrigerant(refrigerantName);
  if (!refrigerant) return err({ code: "unknown-refrigerant", refrigerant: refrigerantName });
  if (!(pressureAbsPa > STANDARD_ATMOSPHERE_PA)) return err({ code: "pressure-not-above-outside", pressureAbsPa });
  const ratio = viscousRatio(
    { insidePa: STANDARD_ATMOSPHERE_PA, outsidePa: 0, viscosityPaS: AIR_VISCOSITY_PA_S },
    {
      insidePa: pressureAbsPa,
      outsidePa: STANDARD_ATMOSPHERE_PA,
      viscosityPaS: VISCOSITY_PA_S[refrigerant.name] ?? TYPICAL_VISCOSITY_PA_S,
    },
  );
  return ok(massFlowKgPerS(airThroughputPaM3PerS * ratio, refrigerant.molarMassKgPerMol) * SECONDS_PER_YEAR);
}
