import { AIR, meanMolecularSpeedMPerS, molecularConductanceM3PerS, viscousConductanceM3PerS } from "../conductance";
import { saturationPressurePa } from "../water";
import type { Plant } from "./plant";
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
  "start",
] as const;
export const COUNT = UNKNOWNS.length;

/** What is believed before the first reading: centres and spreads of the logarithms. */
export interface Belief {
  readonly centre: Float64Array;
  readonly spread: Float64Array;
  readonly plantAt: (unknowns: Float64Array) => Plant;
  /** Places to start the search from: dry, wet, leaking, breathing out, tired pump. */
  readonly starts: readonly Float64Array[];
}

/**
 * Nameplate data are only where the belief starts: pumps give 0.3 to 1 of their plate, hoses down to 4 % of theirs
 * (kinked, cores in, wrong size entered).
 */
export function beliefFor(record: PulldownRecord, trace: PulldownTrace): Belief {
  const startPa = Math.exp(trace.logPa[0]!);
  const { pump, hoses, targetAbsPa, internalVolumeM3 } = record;
  const pipe = { innerDiameterM: hoses.innerDiameterM, lengthM: hoses.lengthM };
  const meanSpeed = meanMolecularSpeedMPerS(293.15, AIR.molarMassKgPerMol);
  const viscous = hoses.count * viscousConductanceM3PerS(pipe, 1, AIR.viscosityPaS);
  const molecular = hoses.count * molecularConductanceM3PerS(pipe, meanSpeed);
  const saturation = saturationPressurePa(Math.min(Math.max(record.wallTemperatureK, 200), 370));
  const load = targetAbsPa * pump.speedM3PerS;
  const floor = Math.max(pump.ultimateAbsPa, 0.5);
  const centre = Float64Array.of(
    Math.log(0.62),
    Math.log(record.valveCoresRemoved ? 0.4 : 0.25),
    Math.log(1.2 * floor),
    Math.log(0.003 * load),
    Math.log(0.01 * load),
    Math.log(0.5 * pump.speedM3PerS),
    Math.log(0.03),
    -0.08,
    Math.log(0.004 * load),
    Math.log(1100),
    Math.log(startPa),
  );
  const spread = Float64Array.of(0.4, 1, 1.2, 2.4, 2, 1, 3, 0.2, 2.4, 0.8, 0.1);
  const plantAt = (x: Float64Array): Plant => ({
    volumeM3: internalVolumeM3,
    speedM3PerS: pump.speedM3PerS * Math.exp(x[0]!),
    pumpFloorPa: Math.exp(x[2]!),
    viscous: viscous * Math.exp(x[1]!),
    molecular: molecular * Math.exp(x[1]!),
    leak: Math.exp(x[3]!),
    walls: Math.exp(x[4]!),
    evaporation: Math.exp(x[5]!),
    saturationPa: saturation * Math.exp(x[7]!),
    water: Math.exp(x[6]!),
    oil: Math.exp(x[8]!),
    oilFadeS: Math.exp(x[9]!),
    gaugeAtPump: record.gauge.location === "pump",
  });
  const speed = Math.log(fastestSpeedM3PerS(trace, internalVolumeM3) / pump.speedM3PerS);
  const start = (changes: Partial<Record<(typeof UNKNOWNS)[number], number>>) =>
    centre.map((value, index) => ({ speed, ...changes })[UNKNOWNS[index]!] ?? value);
  const dry = {
    water: Math.log(0.002),
    leak: Math.log(0.001 * load),
    walls: Math.log(0.003 * load),
    oil: Math.log(0.002 * load),
  };
  return {
    centre,
    spread,
    plantAt,
    starts: [
      start(dry),
      start({ ...dry, water: Math.log(8) }),
      start({ ...dry, leak: Math.log(0.4 * load) }),
      start({ ...dry, oil: Math.log(0.6 * load), walls: Math.log(0.05 * load) }),
      start({ ...dry, pumpFloor: Math.log(0.9 * targetAbsPa) }),
      start({ ...dry, conductance: Math.log(0.06) }),
    ],
  };
}

/** Speed the pump must at least have had where the pressure fell fastest: a place to start from. */
function fastestSpeedM3PerS({ timeS, logPa }: PulldownTrace, volumeM3: number): number {
  let fastest = 0;
  const span = Math.min(3, timeS.length - 1);
  for (let index = span; index < timeS.length; index++) {
    const fellPerS = (logPa[index - span]! - logPa[index]!) / (timeS[index]! - timeS[index - span]!);
    if (Number.isFinite(fellPerS)) fastest = Math.max(fastest, fellPerS);
  }
  return Math.max(fastest * volumeM3, 1e-7);
}
