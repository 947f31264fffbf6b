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
  /** Places to start the search from, the likeliest of each row: dry, wet, drying, leaking, breathing out, tired pump, narrow way. */
  readonly starts: readonly (readonly Float64Array[])[];
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
    1,
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
  const { speedM3PerS, viscousShare, pumpedPaM3 } = leastOf(trace, volumeM3, viscous, 0.9 * saturation);
  const usual = {
    speed: speedM3PerS / plateM3PerS,
    water: 0.002,
    leak: 0.001 * load,
    walls: 0.003 * load,
    oil: 0.002 * load,
  };
  const start = (changes: Partial<Record<(typeof UNKNOWNS)[number], number>>) =>
    centre.map((value, index) => {
      const changed = { ...usual, ...changes }[UNKNOWNS[index]!];
      return changed === undefined ? value : Math.log(changed);
    });
  const wet = (shares: readonly number[]) =>
    shares.flatMap((share) =>
      [0.15, 0.6, 2.5].map((evaporation) =>
        start({ water: 0.01 + share * pumpedPaM3, evaporation: evaporation * plateM3PerS }),
      ),
    );
  const leastPa = Math.exp(Math.min(...trace.logPa));
  return {
    centre,
    spread,
    plantAt,
    starts: [
      [start({})],
      wet([1.5, 3, 8]),
      wet([0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95, 1.1]),
      [0.1, 0.3, 0.8].map((share) => start({ leak: share * leastPa * speedM3PerS })),
      [400, 1500, 5000].map((oilFade) => start({ oil: 0.6 * leastPa * speedM3PerS, oilFade })),
      [0.5, 0.8, 0.95].map((share) => start({ pumpFloor: share * leastPa })),
      [start({ conductance: 1.2 * viscousShare })],
    ],
  };
}

/**
 * The least that pump and hoses must have had where the pressure fell fastest, were each alone in the way, and the gas
 * that such a pump took out below a pressure: places to start from.
 */
function leastOf({ timeS, logPa }: PulldownTrace, volumeM3: number, viscous: number, belowPa: number) {
  let byPump = 0;
  let byHoses = 0;
  let pumped = 0;
  const span = Math.min(3, timeS.length - 1);
  for (let index = span; span > 0 && index < timeS.length; index++) {
    const perS = volumeM3 / Math.max(timeS[index]! - timeS[index - span]!, 0.01);
    byPump = Math.max(byPump, (logPa[index - span]! - logPa[index]!) * perS);
    byHoses = Math.max(byHoses, (Math.exp(-logPa[index]!) - Math.exp(-logPa[index - span]!)) * perS);
    const pressurePa = Math.exp(logPa[index]!);
    if (pressurePa < belowPa) {
      const speed = Math.min(byPump, byHoses * pressurePa);
      pumped += pressurePa * speed * (timeS[index]! - timeS[index - 1]!);
    }
  }
  return {
    speedM3PerS: Math.max(byPump, 1e-7),
    viscousShare: Math.max((2 * byHoses) / viscous, 1e-4),
    pumpedPaM3: pumped,
  };
}

/** Entries beyond any plant are taken for the nearest one there could be. */
function within(value: number, lowest: number, highest: number): number {
  return Math.min(Math.max(value, lowest), highest);
}
