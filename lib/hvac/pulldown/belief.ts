import { saturationPressurePa } from "../water";
import { type Plant, plateConductance } from "./plant";
import type { PulldownRecord } from "./record";
import type { PulldownTrace } from "./trace";

/** Unknowns of the plant, each as a logarithm, in this order. */
export const UNKNOWNS = [
  "speed",
  "conductance",
  "pumpFloor",
  "leak",
  "walls",
  "evaporation",
  "water",
  "saturation",
  "oil",
  "oilFade",
  "filmShare",
  "chill",
  "chillFade",
  "molecular",
  "wallsFade",
  "start",
] as const;
export const COUNT = UNKNOWNS.length;
/** Places of what holds the pressure up steadily enough to be taken for one another: pump floor, leak, walls, oil. */
export const LOADS = [2, 3, 4, 8] as const;

/** What is believed before the first reading: centres and spreads of the logarithms. */
export interface Belief {
  readonly centre: Float64Array;
  readonly spread: Float64Array;
  readonly plantAt: (unknowns: Float64Array) => Plant;
  /** What the pump takes at the target by its plate, Pa m3/s. */
  readonly load: number;
  readonly volumeM3: number;
  readonly plateM3PerS: number;
  /** Viscous conductance by the plates of the hoses, m3/(s Pa). */
  readonly viscous: number;
  readonly wallSaturationPa: number;
}

/**
 * Nameplate data are only where the belief starts: pumps give 0.3 to 1 of their plate, hoses down to 4 % of theirs
 * (kinked, cores in, wrong size entered). Most circuits hold little that gives off gas, a few hold much: centres low,
 * spreads wide.
 */
export function beliefFor(record: PulldownRecord, trace: PulldownTrace): Belief {
  const { pump, hoses } = record;
  const volumeM3 = within(record.internalVolumeM3, 1e-5, 1e3);
  const plateM3PerS = within(pump.speedM3PerS, 1e-6, 10);
  const targetAbsPa = within(record.targetAbsPa, 0.01, 1e5);
  const plate = plateConductance(hoses);
  const viscous = within(plate.viscous, 1e-10, 1e3);
  const molecular = within(plate.molecular, 1e-8, 1e4);
  const saturation = saturationPressurePa(within(record.wallTemperatureK, 200, 370));
  const load = targetAbsPa * plateM3PerS;
  const centre = Float64Array.of(
    0.62,
    record.valveCoresRemoved ? 0.4 : 0.25,
    1.2 * within(pump.ultimateAbsPa, 0.5, 1e4),
    4e-4 * load,
    3e-3 * load,
    0.5 * plateM3PerS,
    0.03,
    0.92,
    4e-4 * load,
    1500,
    0.15,
    0.3 / (plateM3PerS * saturation),
    300,
    record.valveCoresRemoved ? 1 : coreMolecularTimes(hoses.innerDiameterM),
    350,
    Math.exp(trace.logPa[0]!),
  ).map(Math.log);
  const spread = Float64Array.of(0.4, 1, 1.08, 2.4, 2, 1, 3, 0.2, 2.4, 1.1, 1, 1.5, 1.2, 0.9, 0.8, 0.1);
  const plantAt = (x: Float64Array): Plant => ({
    volumeM3,
    speedM3PerS: plateM3PerS * Math.exp(x[0]!),
    viscous: viscous * Math.exp(x[1]!),
    // A narrower way loses less of what goes by d^3 than of what goes by d^4; a short opening less still.
    molecular: molecular * Math.exp(0.75 * x[1]! + x[13]!),
    pumpFloorPa: Math.exp(x[2]!),
    leak: Math.exp(x[3]!),
    walls: Math.exp(x[4]!),
    wallsFadeS: Math.exp(x[14]!),
    evaporation: Math.exp(x[5]!),
    water: Math.exp(x[6]!),
    saturationPa: saturation * Math.exp(x[7]!),
    oil: Math.exp(x[8]!),
    oilFadeS: Math.exp(x[9]!),
    filmShare: Math.exp(x[10]!),
    chill: Math.exp(x[11]!),
    chillFadeS: Math.exp(x[12]!),
    gaugeAtPump: record.gauge.location === "pump",
  });
  return { centre, spread, plantAt, load, volumeM3, plateM3PerS, viscous, wallSaturationPa: saturation };
}

/** Bore left by a valve core, about. Common practice. */
const CORE_BORE_M = 0.003;

/**
 * A core left in is the narrowest place, and of d^4 p against d^3 a narrow bore loses less in molecular flow than the
 * hose's plate says; halfway, since the hose stays in the way as well.
 */
function coreMolecularTimes(hoseBoreM: number): number {
  return Math.sqrt(Math.max(1, hoseBoreM / CORE_BORE_M));
}

/** Entries beyond any plant are taken for the nearest one there could be. */
function within(value: number, lowest: number, highest: number): number {
  return Math.min(Math.max(value, lowest), highest);
}
