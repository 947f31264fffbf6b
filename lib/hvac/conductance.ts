/**
 * Flow conductance of pipes and hoses at vacuum, and what it leaves of a pump's speed. SI throughout.
 * Symbols of the sources: d inner diameter, L length, eta viscosity, cbar mean molecular speed, S speed, C conductance.
 */

const GAS_CONSTANT = 8.31446261815324;

export interface VacuumGas {
  readonly molarMassKgPerMol: number;
  readonly viscosityPaS: number;
}

/** Air. Viscosity at 20 °C, within 3 %, quoted from memory. */
export const AIR: VacuumGas = { molarMassKgPerMol: 0.02897, viscosityPaS: 18.2e-6 };

export interface Pipe {
  readonly innerDiameterM: number;
  readonly lengthM: number;
}

/** Mean speed of the molecules in m/s: sqrt(8 R T / (pi M)). @source kinetic theory, any vacuum textbook */
export function meanMolecularSpeedMPerS(temperatureK: number, molarMassKgPerMol: number): number {
  return Math.sqrt((8 * GAS_CONSTANT * temperatureK) / (Math.PI * molarMassKgPerMol));
}

/** Viscous conductance of a long pipe in m3/s at its mean pressure: pi d^4 p / (128 eta L). @source Hagen-Poiseuille */
export function viscousConductanceM3PerS(pipe: Pipe, meanPressureAbsPa: number, viscosityPaS: number): number {
  return (Math.PI * pipe.innerDiameterM ** 4 * meanPressureAbsPa) / (128 * viscosityPaS * pipe.lengthM);
}

/** Molecular conductance of a long pipe in m3/s: pi cbar d^3 / (12 L). @source Knudsen; Umrath, Fundamentals of Vacuum Technology */
export function molecularConductanceM3PerS(pipe: Pipe, meanSpeedMPerS: number): number {
  return (Math.PI * meanSpeedMPerS * pipe.innerDiameterM ** 3) / (12 * pipe.lengthM);
}

/** Molecular conductance of a short pipe in m3/s: the long pipe's, divided by 1 + 4 d / (3 L). @source Umrath */
export function shortPipeConductanceM3PerS(pipe: Pipe, meanSpeedMPerS: number): number {
  return molecularConductanceM3PerS(pipe, meanSpeedMPerS) / (1 + (4 * pipe.innerDiameterM) / (3 * pipe.lengthM));
}

/** Conductance of a thin opening for molecules, in m3/s: a quarter of the mean speed times its area. @source kinetic theory */
export function apertureConductanceM3PerS(areaM2: number, meanSpeedMPerS: number): number {
  return (meanSpeedMPerS / 4) * areaM2;
}

/** Conductance of a long pipe in m3/s from viscous to molecular flow, as the sum of both. @source the simple handbook form */
export function pipeConductanceM3PerS(
  pipe: Pipe,
  meanPressureAbsPa: number,
  temperatureK = 293.15,
  gas: VacuumGas = AIR,
): number {
  return (
    viscousConductanceM3PerS(pipe, meanPressureAbsPa, gas.viscosityPaS) +
    molecularConductanceM3PerS(pipe, meanMolecularSpeedMPerS(temperatureK, gas.molarMassKgPerMol))
  );
}

/** Knudsen number of a pipe in air at 20 °C: mean free path (6.7e-3 Pa m / p, from memory) over the diameter. */
export function knudsenNumber(innerDiameterM: number, pressureAbsPa: number): number {
  return 6.7e-3 / (pressureAbsPa * innerDiameterM);
}

export type FlowRegime = "viscous" | "transition" | "molecular";

/** Flow regime by Knudsen number: viscous below 0.01, molecular above 0.5. @source Umrath */
export function flowRegime(knudsen: number): FlowRegime {
  if (knudsen < 0.01) return "viscous";
  return knudsen > 0.5 ? "molecular" : "transition";
}

/** What parts in a row let through: 1/C = sum of 1/C_i. A pump's speed is a part like any other. */
export function inSeriesM3PerS(...conductances: readonly number[]): number {
  let resistance = 0;
  for (const conductance of conductances) resistance += 1 / conductance;
  return 1 / resistance;
}

/** Seconds to pump a volume from one pressure to another at constant speed: V/S ln((p0 - pu)/(p - pu)). @source textbook */
export function pumpDownTimeS(
  volumeM3: number,
  speedM3PerS: number,
  fromAbsPa: number,
  toAbsPa: number,
  ultimateAbsPa = 0,
): number {
  return (volumeM3 / speedM3PerS) * Math.log((fromAbsPa - ultimateAbsPa) / (toAbsPa - ultimateAbsPa));
}
