import type { Refrigerant } from "./refrigerants/refrigerant";
import { GAS_CONSTANT_J_PER_MOL_K, STANDARD_ATMOSPHERE_PA } from "./units";

/** Throughput of 1 Pa m3/s in the units leak detectors and tables show. @source definitions of mbar, Torr and atm */
const PER_PA_M3_PER_S = {
  "Pa m3/s": 1,
  "mbar L/s": 10,
  "Torr L/s": 7_600 / 1_013.25,
  "atm cm3/s": 1e6 / STANDARD_ATMOSPHERE_PA,
} as const;
export type ThroughputUnit = keyof typeof PER_PA_M3_PER_S;

const SECONDS_PER_YEAR = 365.25 * 86_400;
/** Throughput means nothing without a temperature; this is the one meant where none is said. */
const REFERENCE_K = 293.15;

/** Viscosity at 20 C in Pa s, good to 3 %. @source memory of handbook tables; others take a middling value */
const AIR_VISCOSITY_PA_S = 18.2e-6;
const MIDDLING_VISCOSITY_PA_S = 12.5e-6;
const VISCOSITY_PA_S: Readonly<Record<string, number>> = {
  "R-410A": 13.3e-6,
  "R-134a": 11.8e-6,
  "R-32": 12.5e-6,
  "R-22": 12.4e-6,
  "R-290": 8e-6,
};

export function fromPaM3PerS(throughputPaM3PerS: number, unit: ThroughputUnit): number {
  return throughputPaM3PerS * PER_PA_M3_PER_S[unit];
}
export function toPaM3PerS(value: number, unit: ThroughputUnit): number {
  return value / PER_PA_M3_PER_S[unit];
}

/** Throughput in Pa m3/s of a steady rise: V dp/dt. @source vacuum technology handbook, rate of rise */
export function throughputOfRise(volumeM3: number, risePaPerS: number): number {
  return volumeM3 * risePaPerS;
}

export interface RiseState {
  readonly pressureAbsPa: number;
  readonly temperatureK: number;
}

/** Gas that came in, in mol/s, when the temperature changed meanwhile. @source 40 CFR 1065.644 (vacuum-decay leak) */
export function molarLeakOfRise(volumeM3: number, from: RiseState, to: RiseState, durationS: number): number {
  const gained = to.pressureAbsPa / to.temperatureK - from.pressureAbsPa / from.temperatureK;
  return ((volumeM3 / GAS_CONSTANT_J_PER_MOL_K) * gained) / durationS;
}

/** Mass in kg a year that a throughput carries. @source dm/dt = Q M/(R T) */
export function massPerYearKg(
  throughputPaM3PerS: number,
  molarMassKgPerMol: number,
  temperatureK: number = REFERENCE_K,
): number {
  const kgPerS = (throughputPaM3PerS * molarMassKgPerMol) / (GAS_CONSTANT_J_PER_MOL_K * temperatureK);
  return kgPerS * SECONDS_PER_YEAR;
}

export interface Flow {
  readonly upstreamAbsPa: number;
  readonly downstreamAbsPa: number;
  readonly viscosityPaS: number;
}

/**
 * The same hole under other pressures and with another gas, in Pa m3/s: laminar viscous flow.
 *
 * Q goes with the difference of the squared pressures and against the viscosity.
 * @source leak testing manual
 */
export function scaleViscousLeak(throughputPaM3PerS: number, from: Flow, to: Flow): number {
  const drive = ({ upstreamAbsPa, downstreamAbsPa }: Flow) => upstreamAbsPa ** 2 - downstreamAbsPa ** 2;
  return throughputPaM3PerS * (from.viscosityPaS / to.viscosityPaS) * (drive(to) / drive(from));
}

export interface LeakSize {
  readonly throughputPaM3PerS: number;
  readonly throughputMbarLPerS: number;
  /** Refrigerant lost through the same hole in a year of standing at the operating pressure. */
  readonly lostPerYearKg: number;
}

/**
 * What a steady rise under vacuum would mean with the circuit charged: an order of magnitude, not a promise.
 *
 * Air leaking in at one atmosphere is scaled to refrigerant leaking out. A vacuum hold therefore proves dryness
 * well and tightness only roughly.
 * @source laminar viscous scaling; gas law
 */
export function estimateLeakSize(leak: {
  readonly risePaPerS: number;
  readonly internalVolumeM3: number;
  readonly refrigerant: Refrigerant;
  readonly operatingPressureAbsPa: number;
  readonly barometerPa?: number;
}): LeakSize {
  const barometerPa = leak.barometerPa ?? STANDARD_ATMOSPHERE_PA;
  const throughputPaM3PerS = throughputOfRise(leak.internalVolumeM3, leak.risePaPerS);
  const outward = scaleViscousLeak(
    throughputPaM3PerS,
    { upstreamAbsPa: barometerPa, downstreamAbsPa: 0, viscosityPaS: AIR_VISCOSITY_PA_S },
    {
      upstreamAbsPa: Math.max(leak.operatingPressureAbsPa, barometerPa),
      downstreamAbsPa: barometerPa,
      viscosityPaS: VISCOSITY_PA_S[leak.refrigerant.name] ?? MIDDLING_VISCOSITY_PA_S,
    },
  );
  return {
    throughputPaM3PerS,
    throughputMbarLPerS: fromPaM3PerS(throughputPaM3PerS, "mbar L/s"),
    lostPerYearKg: massPerYearKg(outward, leak.refrigerant.molarMassKgPerMol),
  };
}
