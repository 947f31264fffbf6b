/**
 * Nitrogen as a real gas, for a circuit held at constant volume.
 *
 * Residual part of the Helmholtz energy. The paper's last four terms (33 to 36) only act near the critical
 * point and are below 1e-60 of the pressure anywhere in this range, so they are left out.
 * @source Span, Lemmon, Jacobsen, Wagner, Yokozeki, J. Phys. Chem. Ref. Data 29 (2000) 1361, eq. 55, table 17, terms 1 to 32
 */
const GAS_CONSTANT = 8.31451;
const REDUCING_TEMPERATURE_K = 126.192;
const REDUCING_DENSITY_MOL_PER_M3 = 11_183.9;

/** n, exponent of density, exponent of inverse temperature, exponent of density inside the exponential (0: none). */
const TERMS: readonly (readonly [number, number, number, number])[] = [
  [0.924803575275, 1, 0.25, 0],
  [-0.492448489428, 1, 0.875, 0],
  [0.661883336938, 2, 0.5, 0],
  [-1.92902649201, 2, 0.875, 0],
  [-0.0622469309629, 3, 0.375, 0],
  [0.349943957581, 3, 0.75, 0],
  [0.564857472498, 1, 0.5, 1],
  [-1.61720005987, 1, 0.75, 1],
  [-0.481395031883, 1, 2, 1],
  [0.421150636384, 3, 1.25, 1],
  [-0.0161962230825, 3, 3.5, 1],
  [0.172100994165, 4, 1, 1],
  [0.00735448924933, 6, 0.5, 1],
  [0.0168077305479, 6, 3, 1],
  [-0.00107626664179, 7, 0, 1],
  [-0.0137318088513, 7, 2.75, 1],
  [0.000635466899859, 8, 0.75, 1],
  [0.00304432279419, 8, 2.5, 1],
  [-0.0435762336045, 1, 4, 2],
  [-0.0723174889316, 2, 6, 2],
  [0.0389644315272, 3, 6, 2],
  [-0.021220136391, 4, 3, 2],
  [0.00408822981509, 5, 3, 2],
  [-5.51990017984e-5, 8, 6, 2],
  [-0.0462016716479, 4, 16, 3],
  [-0.00300311716011, 5, 11, 3],
  [0.0368825891208, 5, 15, 3],
  [-0.0025585684622, 8, 12, 3],
  [0.00896915264558, 3, 12, 4],
  [-0.0044151337035, 5, 7, 4],
  [0.00133722924858, 6, 4, 4],
  [0.000264832491957, 9, 16, 4],
];

/** Absolute pressure of nitrogen in Pa. Gas only: 200 to 500 K and up to some 20 MPa. */
export function nitrogenPressureAbsPa(densityMolPerM3: number, temperatureK: number): number {
  const delta = densityMolPerM3 / REDUCING_DENSITY_MOL_PER_M3;
  const tau = REDUCING_TEMPERATURE_K / temperatureK;
  let residual = 0;
  for (const [n, d, t, l] of TERMS) {
    const power = n * delta ** d * tau ** t;
    const inner = delta ** l;
    residual += l === 0 ? power * d : power * Math.exp(-inner) * (d - l * inner);
  }
  return densityMolPerM3 * GAS_CONSTANT * temperatureK * (1 + residual);
}

/** Molar density of nitrogen in mol/m3, by secant steps from the ideal gas; a few of them reach 1e-12 relative. */
export function nitrogenDensityMolPerM3(pressureAbsPa: number, temperatureK: number): number {
  let density = pressureAbsPa / (GAS_CONSTANT * temperatureK);
  let previous = density;
  let slope = GAS_CONSTANT * temperatureK;
  let previousError = 0;
  for (let step = 0; step < 20; step++) {
    const error = nitrogenPressureAbsPa(density, temperatureK) - pressureAbsPa;
    if (Math.abs(error) <= 1e-12 * pressureAbsPa) break;
    if (step > 0 && density !== previous) slope = (error - previousError) / (density - previous);
    previous = density;
    previousError = error;
    density -= error / slope;
  }
  return density;
}

/** Absolute pressure in Pa that the same nitrogen in the same volume has at another temperature. */
export function nitrogenPressureAtTemperaturePa(pressureAbsPa: number, fromK: number, toK: number): number {
  return nitrogenPressureAbsPa(nitrogenDensityMolPerM3(pressureAbsPa, fromK), toK);
}
