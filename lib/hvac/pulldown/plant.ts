import { AIR, meanMolecularSpeedMPerS, molecularConductanceM3PerS, viscousConductanceM3PerS } from "../conductance";
import type { PulldownHoses } from "./record";

/**
 * Pump, hoses, circuit and what gives off gas, as one lumped plant. SI throughout.
 *
 * Flow through hose and pump: C (p - p2) = S (p2 - pu), with C = viscous (p + p2)/2 + molecular.
 * Film: evaporation falls as its last share dries, and as it cools: saturation exp(-chilled), chilled towards chill times its inflow.
 * Circuit: V dp/dt = leak + walls/(1 + t/fade) + oil exp(-t/fade) + water - S (p2 - pu).
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
  readonly wallsFadeS: number;
  /** Gas leaving oil at the start, Pa m3/s; it fades by the same share in each stretch of time. */
  readonly oil: number;
  readonly oilFadeS: number;
  /** Evaporation in m3/s for each Pa below saturation, while there is water. */
  readonly evaporation: number;
  readonly saturationPa: number;
  /** Liquid water or ice as Pa m3 of vapour. */
  readonly water: number;
  /** Share of the water below which its surface shrinks. */
  readonly filmShare: number;
  /** How far evaporation cools the film: fall of the logarithm of its saturation pressure for each Pa m3/s. */
  readonly chill: number;
  readonly chillFadeS: number;
  /** Whether the gauge sees the pump's end of the hose. */
  readonly gaugeAtPump: boolean;
}

/** Where the plant stands at one moment. */
export interface PlantState {
  pressurePa: number;
  waterLeft: number;
  /** Fall of the logarithm of the film's saturation pressure below that at the wall. */
  chilled: number;
  atS: number;
}

/** What the plates of the hoses promise in air at 20 °C: viscous conductance per Pa of mean pressure, and molecular. */
export function plateConductance({ innerDiameterM, lengthM, count }: PulldownHoses) {
  const pipe = { innerDiameterM, lengthM };
  return {
    viscous: count * viscousConductanceM3PerS(pipe, 1, AIR.viscosityPaS),
    molecular: count * molecularConductanceM3PerS(pipe, meanMolecularSpeedMPerS(293.15, AIR.molarMassKgPerMol)),
  };
}

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
  const { volumeM3, speedM3PerS: speed, molecular, pumpFloorPa, leak, walls, wallsFadeS, oil, oilFadeS } = plant;
  const { evaporation, saturationPa, water, filmShare, chill, chillFadeS } = plant;
  const a = plant.viscous / 2;
  const b = molecular + speed;
  let { pressurePa: pressure, waterLeft, chilled, atS } = state;
  let oilNow = oil > 0 ? oil * Math.exp(-atS / oilFadeS) : 0;
  while (atS < untilS) {
    const c = a * pressure * pressure + molecular * pressure + speed * pumpFloorPa;
    const root = Math.sqrt(b * b + 4 * a * c);
    let inflow = leak + (walls * wallsFadeS) / (wallsFadeS + atS) + oilNow;
    let stiffness = (speed * (2 * a * pressure + molecular)) / root;
    let fromWater = 0;
    let stepS = untilS - atS;
    if (waterLeft > 0) {
      const short = saturationPa * coldShare(chilled) - pressure;
      if (short > 0) {
        const flow = (evaporation * waterLeft * (1 + filmShare)) / (waterLeft + filmShare * water);
        fromWater = flow * short;
        inflow += fromWater;
        stiffness += flow;
        stepS = Math.min(stepS, (0.15 * (waterLeft + 0.02 * water)) / fromWater);
      }
      // The film may not cool at once.
      if (chill > 0) stepS = Math.min(stepS, 0.3 * chillFadeS);
    }
    stiffness /= volumeM3;
    const rate = (inflow - speed * ((2 * c) / (b + root) - pumpFloorPa)) / volumeM3;
    // As long as the pressure moves little, or as the fading walls and the drying film allow.
    const fast = Math.abs(rate);
    if (fast > loosestStep * pressure * stiffness) stepS = Math.min(stepS, (loosestStep * pressure) / fast);
    stepS = Math.max(Math.min(stepS, 0.25 * (atS + Math.min(wallsFadeS, oilFadeS))), 0.05);
    pressure = Math.max(pressure + rate * stepS * shareMoved(stiffness * stepS), 0.01);
    if (fromWater > 0) waterLeft = Math.max(0, waterLeft - fromWater * stepS);
    if (chill > 0) {
      const aim = chill * fromWater;
      chilled += ((aim - chilled) * stepS * shareMoved(stepS / chillFadeS)) / chillFadeS;
    }
    const faded = stepS / oilFadeS;
    oilNow *= 1 - faded * shareMoved(faded);
    atS += stepS;
  }
  state.pressurePa = pressure;
  state.waterLeft = waterLeft;
  state.chilled = chilled;
  state.atS = untilS;
}

/** (1 - exp(-x)) / x for x of 0 or more, within 1.5 %: a Pade form that costs no exponential. */
function shareMoved(x: number): number {
  return (24 + x * (6 + x)) / (24 + x * (18 + x * (6 + x)));
}

/** Saturation pressure of a chilled film over that at the wall: exp(-chilled), nearly. */
function coldShare(chilled: number): number {
  const eighth = 1 / (1 + chilled / 8);
  const quarter = eighth * eighth;
  const half = quarter * quarter;
  return half * half;
}

/** Gas leaving walls and oil at one moment, Pa m3/s. */
export function fadingInflow({ walls, wallsFadeS, oil, oilFadeS }: Plant, atS: number): number {
  return walls / (1 + atS / wallsFadeS) + oil * Math.exp(-atS / oilFadeS);
}

/** What water gives off at one moment, Pa m3/s; the last of it comes slower. */
export function waterInflow(plant: Plant, { pressurePa, waterLeft, chilled }: PlantState): number {
  const short = plant.saturationPa * coldShare(chilled) - pressurePa;
  if (waterLeft <= 0 || short <= 0) return 0;
  return (plant.evaporation * short * waterLeft * (1 + plant.filmShare)) / (waterLeft + plant.filmShare * plant.water);
}

/** What the gauge stands at, before its own error. */
export function shownPa(plant: Plant, pressurePa: number): number {
  return plant.gaugeAtPump ? inletPressurePa(plant, pressurePa) : pressurePa;
}
