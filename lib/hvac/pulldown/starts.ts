import { type Belief, UNKNOWNS } from "./belief";
import { inletPressurePa, type Plant } from "./plant";
import type { PulldownTrace } from "./trace";

/** Places to start a search from: the likeliest of a row is taken. */
export type Starts = readonly Float64Array[];
type Changes = Partial<Record<(typeof UNKNOWNS)[number], number>>;

/** Pump and hoses first, little coming in: as their plates say, and with a narrow way. */
export function rigStarts(belief: Belief, trace: PulldownTrace): readonly Starts[] {
  const { byPump, byHoses } = leastOf(trace, belief);
  const speed = Math.max(byPump, 1e-7) / belief.plateM3PerS;
  const conductance = Math.max((2 * byHoses) / belief.viscous, 1e-4);
  return [[startAt(belief, { speed })], [startAt(belief, { speed, conductance: 1.2 * conductance })]];
}

/** With pump and hoses as found, what may hold the pressure up: water there, water gone, leak, oil, walls, tired pump. */
export function loadStarts(belief: Belief, trace: PulldownTrace, rig: Float64Array): readonly Starts[] {
  const found = (changes: Changes) => {
    const start = startAt(belief, changes);
    for (const name of ["speed", "conductance", "molecular", "start"] as const) {
      const index = UNKNOWNS.indexOf(name);
      start[index] = rig[index]!;
    }
    return start;
  };
  const plant = { ...belief.plantAt(rig), pumpFloorPa: 0 };
  const saturationPa = Math.exp(belief.centre[UNKNOWNS.indexOf("saturation")]!) * belief.wallSaturationPa;
  const { inflow, pumpedPaM3, lastPa } = balanceOf(plant, trace, 0.98 * saturationPa);
  const lastS = trace.lastS;
  const evaporation = inflow / Math.max(saturationPa - lastPa, 0.05 * saturationPa);
  const speeds = [0.15, 0.6, 2.5].map((share) => share * belief.plateM3PerS);
  const wet = (shares: readonly number[], evaporations: readonly number[]) =>
    shares.flatMap((share) =>
      evaporations.map((each) => found({ water: 0.005 + share * pumpedPaM3, evaporation: each })),
    );
  return [
    wet([1.1, 1.5, 3, 8], [evaporation, 2 * evaporation, ...speeds]),
    wet([0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95], speeds),
    [0.2, 0.5, 0.95].map((share) => found({ leak: share * inflow })),
    [400, 1500, 5000].map((oilFade) => found({ oil: 0.8 * inflow * Math.exp(Math.min(lastS / oilFade, 3)), oilFade })),
    [0.5, 0.8, 0.95].map((share) => found({ pumpFloor: share * inletPressurePa(plant, lastPa) })),
  ];
}

/** What is believed, with less coming in than the centres say, and with these changes. */
function startAt({ centre, load }: Belief, changes: Changes): Float64Array {
  const all: Changes = { water: 0.002, leak: 1e-3 * load, walls: 3e-3 * load, oil: 2e-3 * load, ...changes };
  return centre.map((value, index) => {
    const changed = all[UNKNOWNS[index]!];
    return changed === undefined ? value : Math.log(Math.max(changed, 1e-12));
  });
}

/** The least that pump and hoses must have had where the pressure fell fastest, were each alone in the way. */
function leastOf({ timeS, logPa }: PulldownTrace, { volumeM3 }: Belief) {
  let byPump = 0;
  let byHoses = 0;
  const span = Math.min(3, timeS.length - 1);
  for (let index = span; span > 0 && index < timeS.length; index++) {
    const perS = volumeM3 / Math.max(timeS[index]! - timeS[index - span]!, 0.01);
    byPump = Math.max(byPump, (logPa[index - span]! - logPa[index]!) * perS);
    byHoses = Math.max(byHoses, (Math.exp(-logPa[index]!) - Math.exp(-logPa[index - span]!)) * perS);
  }
  return { byPump, byHoses };
}

/** What came in by the balance of gas: what this rig pumped, less what the fall of the pressure gave up. */
function balanceOf(plant: Plant, { timeS, logPa }: PulldownTrace, belowPa: number) {
  const last = timeS.length - 1;
  const pressures = Array.from(logPa, (log) => circuitPa(plant, Math.exp(log)));
  const taken = (pressurePa: number) => plant.speedM3PerS * inletPressurePa(plant, pressurePa);
  let pumpedPaM3 = 0;
  for (let index = 1; index <= last; index++) {
    const middlePa = Math.sqrt(pressures[index]! * pressures[index - 1]!);
    if (middlePa >= belowPa) continue;
    const gained = plant.volumeM3 * (pressures[index]! - pressures[index - 1]!);
    pumpedPaM3 += Math.max(0, taken(middlePa) * (timeS[index]! - timeS[index - 1]!) + gained);
  }
  const lastPa = pressures[last]!;
  const before = Math.max(0, last - 3);
  const risePaPerS = (lastPa - pressures[before]!) / Math.max(timeS[last]! - timeS[before]!, 0.01);
  const inflow = Math.max(taken(lastPa) + plant.volumeM3 * risePaPerS, 0.05 * taken(lastPa));
  return { inflow, pumpedPaM3, lastPa };
}

/** Pressure in the circuit when the gauge shows `shownPa`, for a pump that pulls to nothing. */
function circuitPa(plant: Plant, shownPa: number): number {
  if (!plant.gaugeAtPump) return shownPa;
  const a = plant.viscous / 2;
  const c = a * shownPa ** 2 + (plant.molecular + plant.speedM3PerS) * shownPa;
  return (2 * c) / (plant.molecular + Math.sqrt(plant.molecular ** 2 + 4 * a * c));
}
