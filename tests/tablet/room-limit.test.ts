import { expect, test } from "vitest";
import { roomLimit } from "@/app/(tablet)/_tablet/steps/room-limit";
import { findRefrigerant } from "@/lib/hvac";

/** At the floor as a unit's manual prints it for R-32 (read); no room is asked about up to 1.84 kg, and 26 m3 end the formula. */
test.each([
  { areaM2: 10, place: "floor", typedKg: 1.84, atMostKg: 1.84, isBelowTyped: false },
  { areaM2: 10, place: "floor", typedKg: 1.9, atMostKg: 1.84, isBelowTyped: true },
  { areaM2: 45, place: "floor", typedKg: 2.29, atMostKg: 2.299, isBelowTyped: false },
  { areaM2: 45, place: "floor", typedKg: 2.31, atMostKg: 2.299, isBelowTyped: true },
  { areaM2: 1000, place: "ceiling", typedKg: 7.9, atMostKg: 7.982, isBelowTyped: false },
  { areaM2: 1000, place: "ceiling", typedKg: 8, atMostKg: 7.982, isBelowTyped: true },
])("$areaM2 m2, unit at the $place: at most $atMostKg kg, $typedKg kg typed is too much: $isBelowTyped", (row) => {
  const limit = roomLimit(findRefrigerant("R-32"), row.areaM2, row.place, row.typedKg)!;
  expect(limit.atMostKg).toBeCloseTo(row.atMostKg, 2);
  expect(limit.isBelowTyped).toBe(row.isBelowTyped);
});

test("nothing is said without a room, a place or a flammable limit; nothing is warned of before a limit is typed", () => {
  const r32 = findRefrigerant("R-32");
  for (const [refrigerant, areaM2, place] of [
    [findRefrigerant("R-410A"), 10, "floor"],
    [undefined, 10, "floor"],
    [r32, null, "floor"],
    [r32, 10, null],
    [r32, 10, "constructor"],
  ] as const)
    expect(roomLimit(refrigerant, areaM2, place, 2)).toBeNull();
  expect(roomLimit(r32, 10, "wall", undefined)).toMatchObject({ isBelowTyped: false });
});
