import { judgeRoomCharge, type Refrigerant, type RoomChargeJudgement } from "@/lib/hvac";
import { RELEASE_HEIGHT_M, type UnitPlace } from "@/lib/hvac/rulebook";

export interface RoomLimit extends RoomChargeJudgement {
  readonly atMostKg: number;
  /** The limit typed is more than the formula gives: only the listing's own measures can allow it. */
  readonly isBelowTyped: boolean;
}

/** What the published room formula gives for this room; null where room, place or flammable limit is not known. */
export function roomLimit(
  refrigerant: Refrigerant | undefined,
  roomAreaM2: unknown,
  place: unknown,
  typedKg: unknown,
): RoomLimit | null {
  if (!refrigerant?.lowerFlammableLimit || typeof roomAreaM2 !== "number" || !isPlace(place)) return null;
  const judged = judgeRoomCharge(typeof typedKg === "number" ? typedKg : 0, {
    lowerFlammableLimitKgPerM3: refrigerant.lowerFlammableLimit.kgPerM3,
    mildlyFlammable: refrigerant.safetyClass.endsWith("2L"),
    releaseHeightM: RELEASE_HEIGHT_M[place],
    roomAreaM2,
    edition: "iec-60335-2-40-2018", // its room formula is the later ones' too, and it ends sooner
  });
  return {
    ...judged,
    atMostKg: Math.max(judged.unrestrictedKg, Math.min(judged.roomKg, judged.formulaEndsKg)),
    isBelowTyped: judged.verdict === "room-too-small" || judged.verdict === "beyond-formula",
  };
}

function isPlace(place: unknown): place is UnitPlace {
  return typeof place === "string" && Object.hasOwn(RELEASE_HEIGHT_M, place);
}
