/**
 * Pump, hoses, circuit and what gives off gas, as one lumped plant. SI throughout.
 *
 * Flow through hose and pump: C (p - p2) = S (p2 - pu), with C = viscous (p + p2)/2 + molecular.
 * Circuit: V dp/dt = leak + walls/(1 + t/300 s) + oil exp(-t/fade) + water - S (p2 - pu).
 * @source series conductance, pump-down and rate of rise as in any vacuum textbook (Umrath, O'Hanlon)
 */
export interface Plant {
  readonly volumeM3: number;
  readonly speedM3PerS: number;
  readonly pumpFloorPa: number;
  /** Viscous conductance per Pa of mean pressure, m3/(s Pa). */
  readonly viscous: number;
  /** Molecular conductance, m3/s. */
  readonly molecular: number;
  /** Steady inflow, Pa m3/s. */
  readonly leak: number;
  /** Gas leaving walls at the start, Pa m3/s; it fades about as one over time. */
  readonly walls: number;
  /** Gas leaving oil at the start, Pa m3/s; it fades by the same share in each stretch of time. */
  readonly oil: number;
  readonly oilFadeS: number;
  /** Evaporation in m3/s for each Pa below saturation, while there is water. */
  readonly evaporation: number;
  readonly saturationPa: number;
  /** Liquid water or ice as Pa m3 of vapour. */
  readonly water: number;
  /** Whether the gauge sees the pump's end of the hose. */
  readonly gaugeAtPump: boolean;
}

/** Where the plant stands at one moment. */
export interface PlantState {
  pressurePa: number;
  waterLeft: number;
  atS: number;
}

const FADE_S = 300;
const FILM_SHARE = 0.1;

/** Pressure at the pump's inlet when the circuit is at `pressurePa`. */
export function inletPressurePa(plant: Plant, pressurePa: number): number {
  const a = plant.viscous / 2;
  const b = plant.molecular + plant.speedM3PerS;
  const c = a * pressurePa ** 2 + plant.molecular * pressurePa + plant.speedM3PerS * plant.pumpFloorPa;
  return (2 * c) / (b + Math.sqrt(b * b + 4 * a * c));
}

/** Net speed at the circuit in m3/s: what leaves per Pa there. */
export function effectiveSpeedM3PerS(plant: Plant, pressurePa: number): number {
  return (plant.speedM3PerS * (inletPressurePa(plant, pressurePa) - plant.pumpFloorPa)) / pressurePa;
}

/** Moves the state on; each inner step is exact for flows that are straight lines in pressure. */
export function advance(plant: Plant, state: PlantState, untilS: number, loosestStep = 0.2): void {
  const { volumeM3, speedM3PerS: speed, molecular } = plant;
  const a = plant.viscous / 2;
  const b = molecular + speed;
  let { pressurePa: pressure, waterLeft, atS } = state;
  while (atS < untilS) {
    const c = a * pressure * pressure + molecular * pressure + speed * plant.pumpFloorPa;
    const root = Math.sqrt(b * b + 4 * a * c);
    const inlet = (2 * c) / (b + root);
    const film = waterLeft > 0 ? waterLeft / (waterLeft + FILM_SHARE * plant.water) : 0;
    const short = plant.saturationPa - pressure;
    const fromWater = short > 0 ? plant.evaporation * film * short : 0;
    const inflow = plant.leak + fadingInflow(plant, atS) + fromWater;
    const rate = (inflow - speed * (inlet - plant.pumpFloorPa)) / volumeM3;
    const slope = (speed * (2 * a * pressure + molecular)) / root;
    const stiffness = (slope + (short > 0 ? plant.evaporation * film : 0)) / volumeM3;
    // As long as the pressure moves little, or as the fading walls and the drying film allow.
    const relaxS = 1 / Math.max(stiffness, 1e-9);
    let stepS = untilS - atS;
    const quick = (loosestStep * pressure) / Math.max(Math.abs(rate), 1e-12);
    if (quick < relaxS) stepS = Math.min(stepS, quick);
    stepS = Math.min(stepS, 0.25 * (atS + FADE_S));
    if (fromWater > 0) stepS = Math.min(stepS, (0.15 * (waterLeft + 0.02 * plant.water)) / fromWater);
    stepS = Math.max(stepS, 0.05);
    const moved = -Math.expm1(-stiffness * stepS) / stiffness;
    pressure = Math.max(pressure + rate * moved, 0.01);
    waterLeft = Math.max(0, waterLeft - fromWater * stepS);
    atS = Math.min(atS + stepS, untilS + 1e-9);
  }
  state.pressurePa = pressure;
  state.waterLeft = waterLeft;
  state.atS = untilS;
}

/** Gas leaving walls and oil at one moment, Pa m3/s. */
export function fadingInflow({ walls, oil, oilFadeS }: Plant, atS: number): number {
  return walls / (1 + atS / FADE_S) + oil * Math.exp(-atS / oilFadeS);
}

/** What water gives off at one moment, Pa m3/s; the last of it comes slower. */
export function waterInflow(plant: Plant, { pressurePa, waterLeft }: PlantState): number {
  if (waterLeft <= 0 || pressurePa >= plant.saturationPa) return 0;
  const film = waterLeft / (waterLeft + FILM_SHARE * plant.water);
  return plant.evaporation * film * (plant.saturationPa - pressurePa);
}

/** What the gauge stands at, before its own error. */
export function shownPa(plant: Plant, pressurePa: number): number {
  return plant.gaugeAtPump ? inletPressurePa(plant, pressurePa) : pressurePa;
}
