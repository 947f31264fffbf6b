import { etaS } from "./forecast";
import { type Plant, plateConductance } from "./plant";
import type { PulldownHoses, PulldownRecord } from "./record";

/** Share of the hoses' conductance that stays when valve cores are left in. Common practice says "well under half"; a default of our own. */
export const CORES_IN_SHARE = 0.4;

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
 * taking the cores out would save at best. Null when either would need more than four hours.
 */
export function compareRigs(record: PulldownRecord, changed: Rig): RigTimes | null {
  const asIsS = timeToTargetS(record, { hoses: record.hoses, valveCoresRemoved: record.valveCoresRemoved });
  const changedS = timeToTargetS(record, changed);
  return asIsS === null || changedS === null ? null : { asIsS, changedS, savedS: asIsS - changedS };
}

function timeToTargetS(record: PulldownRecord, rig: Rig): number | null {
  const { internalVolumeM3, pump } = record;
  const { viscous, molecular } = plateConductance(rig.hoses);
  const share = rig.valveCoresRemoved ? 1 : CORES_IN_SHARE;
  const plant: Plant = {
    volumeM3: internalVolumeM3,
    speedM3PerS: pump.speedM3PerS,
    pumpFloorPa: pump.ultimateAbsPa,
    viscous: share * viscous,
    molecular: share * molecular,
    leak: 0,
    walls: 0,
    wallsFadeS: 1e6,
    oil: 0,
    oilFadeS: 1e6,
    evaporation: 0,
    saturationPa: 0,
    water: 0,
    filmShare: 1,
    chill: 0,
    chillFadeS: 1,
    gaugeAtPump: false,
  };
  const air = { pressurePa: 101_325, waterLeft: 0, chilled: 0, atS: 0 };
  return etaS(record, { everyS: 0, readingSpread: 0 }, plant, air);
}
