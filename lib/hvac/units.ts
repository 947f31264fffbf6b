/**
 * Every unit the product shows or reads, and its way to SI and back.
 *
 * Factors are exact by definition unless the line says otherwise.
 * @source NIST SP 811 (2008) Appendix B; the torr is 101 325/760 Pa by definition
 */
const PASCAL_PER = {
  Pa: 1,
  kPa: 1_000,
  MPa: 1_000_000,
  mbar: 100,
  bar: 100_000,
  micron: 101_325 / 760_000,
  Torr: 101_325 / 760,
  mmHg: 133.322387415, // conventional, 0 C, as printed
  inHg: 3_386.389, // conventional, 0 C, as printed
  psi: (0.45359237 * 9.80665) / 0.0254 ** 2,
} as const;
const KG_PER = { kg: 1, g: 1e-3, lb: 0.45359237, oz: 0.45359237 / 16 } as const;
const METRE_PER = { m: 1, mm: 1e-3, ft: 0.3048, in: 0.0254 } as const;

export type PressureUnit = keyof typeof PASCAL_PER;
export type MassUnit = keyof typeof KG_PER;
export type LengthUnit = keyof typeof METRE_PER;
export type TemperatureUnit = "K" | "C" | "F";

/** One standard atmosphere; the real barometer goes before it wherever one is known. */
export const STANDARD_ATMOSPHERE_PA = 101_325;
/** Molar gas constant in J/(mol K), exact since the SI of 2019. */
export const GAS_CONSTANT_J_PER_MOL_K = 8.31446261815324;

/** A pressure or pressure difference in Pa. Gauge stays gauge: adding the barometer is the caller's. */
export function toPa(value: number, unit: PressureUnit): number {
  return value * PASCAL_PER[unit];
}
export function fromPa(pressurePa: number, unit: PressureUnit): number {
  return pressurePa / PASCAL_PER[unit];
}
export function micronToPa(micron: number): number {
  return micron * PASCAL_PER.micron;
}
export function paToMicron(pressurePa: number): number {
  return pressurePa / PASCAL_PER.micron;
}

/** A temperature (not a difference) in K. */
export function toKelvin(value: number, unit: TemperatureUnit): number {
  if (unit === "K") return value;
  return unit === "C" ? value + 273.15 : (value + 459.67) / 1.8;
}
export function fromKelvin(temperatureK: number, unit: TemperatureUnit): number {
  if (unit === "K") return temperatureK;
  return unit === "C" ? temperatureK - 273.15 : temperatureK * 1.8 - 459.67;
}
export function celsiusToKelvin(temperatureC: number): number {
  return temperatureC + 273.15;
}
export function kelvinToCelsius(temperatureK: number): number {
  return temperatureK - 273.15;
}
/** A temperature difference in K: superheat, subcooling, glide. */
export function toKelvinDifference(value: number, unit: TemperatureUnit): number {
  return unit === "F" ? value / 1.8 : value;
}
export function fromKelvinDifference(differenceK: number, unit: TemperatureUnit): number {
  return unit === "F" ? differenceK * 1.8 : differenceK;
}

export function toKg(value: number, unit: MassUnit): number {
  return value * KG_PER[unit];
}
export function fromKg(massKg: number, unit: MassUnit): number {
  return massKg / KG_PER[unit];
}

export function toMetre(value: number, unit: LengthUnit): number {
  return value * METRE_PER[unit];
}
export function fromMetre(lengthM: number, unit: LengthUnit): number {
  return lengthM / METRE_PER[unit];
}
