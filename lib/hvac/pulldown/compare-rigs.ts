import {
  AIR,
  meanMolecularSpeedMPerS,
  molecularConductanceM3PerS,
  pipeConductanceM3PerS,
  viscousConductanceM3PerS,
} from "../conductance";
import { advance, type Plant } from "./plant";
import type { PulldownHoses, PulldownRecord } from "./record";

/** Share of the hoses' conductance that stays when valve cores are left in. Common practice says "well under half"; a default of our own. */
const CORES_IN_SHARE = 0.4;

export interface Rig {
  readonly hoses: PulldownHoses;
  readonly valveCoresRemoved: boolean;
}

export interface RigTimes {
  readonly asIsS: number;
  readonly changedS: number;
  readonly savedS: number;
}

/**
 * Seconds from air to the target with the rig as entered and with another one, both dry and tight: what wider hoses or
 * taking the cores out would save at best. Null when either would need more than a day.
 */
export function compareRigs(record: PulldownRecord, changed: Rig): RigTimes | null {
  const asIsS = timeToTargetS(record, { hoses: record.hoses, valveCoresRemoved: record.valveCoresRemoved });
  const changedS = timeToTargetS(record, changed);
  return asIsS === null || changedS === null ? null : { asIsS, changedS, savedS: asIsS - changedS };
}

/** Conductance in m3/s of a rig at a mean pressure, hoses side by side. */
export function rigConductanceM3PerS({ hoses, valveCoresRemoved }: Rig, meanPressureAbsPa: number): number {
  const pipe = { innerDiameterM: hoses.innerDiameterM, lengthM: hoses.lengthM };
  return hoses.count * pipeConductanceM3PerS(pipe, meanPressureAbsPa) * (valveCoresRemoved ? 1 : CORES_IN_SHARE);
}

function timeToTargetS({ internalVolumeM3, pump, targetAbsPa }: PulldownRecord, rig: Rig): number | null {
  const pipe = { innerDiameterM: rig.hoses.innerDiameterM, lengthM: rig.hoses.lengthM };
  const share = rig.hoses.count * (rig.valveCoresRemoved ? 1 : CORES_IN_SHARE);
  const plant: Plant = {
    volumeM3: internalVolumeM3,
    speedM3PerS: pump.speedM3PerS,
    pumpFloorPa: pump.ultimateAbsPa,
    viscous: share * viscousConductanceM3PerS(pipe, 1, AIR.viscosityPaS),
    molecular: share * molecularConductanceM3PerS(pipe, meanMolecularSpeedMPerS(293.15, AIR.molarMassKgPerMol)),
    leak: 0,
    walls: 0,
    oil: 0,
    oilFadeS: 1,
    evaporation: 0,
    saturationPa: 0,
    water: 0,
    filmShare: 1,
    chill: 0,
    chillFadeS: 1,
    gaugeAtPump: false,
  };
  const state = { pressurePa: 101_325, waterLeft: 0, chilled: 0, atS: 0 };
  while (state.pressurePa > targetAbsPa) {
    if (state.atS > 86_400) return null;
    advance(plant, state, state.atS + Math.max(1, 0.01 * state.atS), 0.05);
  }
  return state.atS;
}
