import { FLAMMABLE_FACTORS, type FlammableEdition, RELEASE_HEIGHT_M } from "../rules/flammable-charge";
import type { Source } from "../rules/source";

export interface RoomCharge {
  /** Lower flammable limit in kg/m3. */
  readonly lowerFlammableLimitKgPerM3: number;
  readonly mildlyFlammable: boolean;
  readonly releaseHeightM: number;
  readonly roomAreaM2: number;
  readonly edition: FlammableEdition;
}

export interface RoomChargeLimits extends Source {
  /** Up to here no room is asked about. */
  readonly unrestrictedKg: number;
  /** Up to here in this room. */
  readonly roomKg: number;
  /** Above this the room formula no longer applies. */
  readonly formulaEndsKg: number;
  readonly neverAboveKg: number | null;
}

export interface RoomChargeJudgement extends RoomChargeLimits {
  readonly verdict: "unrestricted" | "fits-room" | "room-too-small" | "beyond-formula";
  readonly leastAreaM2: number;
  readonly text: string;
}

/**
 * Charge limits in kg for a flammable refrigerant in an occupied room.
 *
 * m1, m2, m3 are multiples of the lower flammable limit; between m1 and m2 the room decides:
 * 2.5 LFL^1.25 h0 sqrt(A), from 2018 on also 0.75 LFL h0 A. Sensors, ducts and openings change all of it: the
 * product's listing and the code in force govern, and nothing here permits more than they do.
 * @source IEC/UL 60335-2-40, edition by edition in rules/flammable-charge.ts
 */
export function roomChargeLimits(room: RoomCharge): RoomChargeLimits {
  const factors = factorsOf(room.edition);
  const limit = room.lowerFlammableLimitKgPerM3;
  const heightM = Math.max(room.releaseHeightM, RELEASE_HEIGHT_M.floor);
  const rootKg = 2.5 * limit ** 1.25 * heightM * Math.sqrt(room.roomAreaM2);
  const linearKg = 0.75 * limit * heightM * room.roomAreaM2;
  return {
    unrestrictedKg: (room.mildlyFlammable ? factors.m1ForA2lM3 : factors.m1M3) * limit,
    roomKg: factors.linearRoomLimit ? Math.min(rootKg, linearKg) : rootKg,
    formulaEndsKg: factors.m2M3 * limit,
    neverAboveKg: factors.m3M3 === null ? null : factors.m3M3 * limit,
    source: factors.source,
    mark: factors.mark,
  };
}

/** Smallest room in m2 for a charge, by the same formulae turned round. */
export function leastRoomAreaM2(chargeKg: number, room: Omit<RoomCharge, "roomAreaM2">): number {
  const limit = room.lowerFlammableLimitKgPerM3;
  const heightM = Math.max(room.releaseHeightM, RELEASE_HEIGHT_M.floor);
  const rootM2 = (chargeKg / (2.5 * limit ** 1.25 * heightM)) ** 2;
  const linearM2 = chargeKg / (0.75 * limit * heightM);
  return factorsOf(room.edition).linearRoomLimit ? Math.max(rootM2, linearM2) : rootM2;
}

/** Whether a charge fits a room. */
export function judgeRoomCharge(chargeKg: number, room: RoomCharge): RoomChargeJudgement {
  const limits = roomChargeLimits(room);
  const stated = { ...limits, leastAreaM2: leastRoomAreaM2(chargeKg, room) };
  if (chargeKg <= limits.unrestrictedKg)
    return { verdict: "unrestricted", text: "This charge needs no minimum room by this edition.", ...stated };
  if (chargeKg > limits.formulaEndsKg)
    return {
      verdict: "beyond-formula",
      text: "Too much for the room formula: only the measures in the product's listing can allow it.",
      ...stated,
    };
  if (chargeKg <= limits.roomKg)
    return { verdict: "fits-room", text: "The room is large enough by the formula; the listing governs.", ...stated };
  return { verdict: "room-too-small", text: "The room is too small for this charge: do not charge it.", ...stated };
}

function factorsOf(edition: FlammableEdition) {
  const factors = FLAMMABLE_FACTORS.find((candidate) => candidate.edition === edition);
  if (factors === undefined) throw new RangeError(`no factors for ${edition}`);
  return factors;
}
