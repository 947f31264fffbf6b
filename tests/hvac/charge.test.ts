import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { judgeChargeCheck } from "@/lib/hvac/charge/charge-check";
import { judgeRoomCharge, leastRoomAreaM2, type RoomCharge } from "@/lib/hvac/charge/flammable-charge";
import { judgeWeighedCharge, planCharge } from "@/lib/hvac/charge/line-set";
import { glideK, subcoolingK, superheatK } from "@/lib/hvac/charge/superheat";
import { targetSuperheatK } from "@/lib/hvac/charge/target-superheat";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { bubblePressurePa, dewPressurePa } from "@/lib/hvac/refrigerants/saturation";
import { fromKelvinDifference, toKelvin, toKg } from "@/lib/hvac/units";

describe("charge by weight", () => {
  const lineSet = { rateKgPerM: 0.05, lengthM: 10, included: { massKg: 0.2 }, addersKg: [0.17] };

  test("adders count, and the total is what stands on the label", () => {
    const plan = planCharge(2, lineSet);
    expect(plan.ok && plan.value.adjustmentKg).toBeCloseTo(0.47, 12);
    expect(plan.ok && plan.value.totalKg).toBeCloseTo(2.47, 12);
  });

  test("a line shorter than the precharged length takes nothing out", () => {
    const plan = planCharge(2, { ...lineSet, addersKg: [], included: { lengthM: 15 } });
    expect(plan).toEqual({ ok: true, value: { adjustmentKg: 0, totalKg: 2 } });
  });

  test("what cannot be is refused by name", () => {
    expect(planCharge(0, lineSet)).toMatchObject({ error: { code: "factory-charge-not-positive" } });
    expect(planCharge(Number.NaN, lineSet)).toMatchObject({ error: { code: "factory-charge-not-positive" } });
    expect(planCharge(2, { ...lineSet, lengthM: -1 })).toMatchObject({ error: { quantity: "length" } });
    expect(planCharge(2, { ...lineSet, addersKg: [-1] })).toMatchObject({ error: { quantity: "adder" } });
    expect(planCharge(2, { ...lineSet, included: { massKg: 9 } })).toMatchObject({
      error: { code: "charge-not-positive" },
    });
  });

  test("an ounce is what the scale may be off", () => {
    expect(judgeWeighedCharge(2, 2 + toKg(1, "oz")).verdict).toBe("as-planned");
    expect(judgeWeighedCharge(2, 2 + toKg(1.1, "oz")).verdict).toBe("too-much");
    expect(judgeWeighedCharge(2, 1.9).verdict).toBe("too-little");
  });
});

describe("superheat and subcooling", () => {
  test("superheat counts from the dew point, subcooling from the bubble point", () => {
    const blend = findRefrigerant("R-407C")!;
    const dew = dewPressurePa(blend, 280);
    const bubble = bubblePressurePa(blend, 310);
    if (!dew.ok || !bubble.ok) throw new Error("inside the range");
    const superheat = superheatK(blend, dew.value, 286);
    const subcooling = subcoolingK(blend, bubble.value, 304);
    expect(superheat.ok && superheat.value).toBeCloseTo(6, 6);
    expect(subcooling.ok && subcooling.value).toBeCloseTo(6, 6);
    const glide = glideK(blend, 500_000);
    expect(glide.ok && glide.value).toBeGreaterThan(5);
    expect(superheatK(blend, 1e8, 286).ok).toBe(false);
  });

  test("between four cells the target lies within them", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 62, max: 76, noNaN: true }),
        fc.double({ min: 40, max: 80, noNaN: true }),
        (wetBulbF, dryBulbF) => {
          const target = targetSuperheatK(toKelvin(wetBulbF, "F"), toKelvin(dryBulbF, "F"));
          if (!target.ok) throw new Error("inside the table");
          const targetF = fromKelvinDifference(target.value, "F");
          expect(targetF).toBeGreaterThanOrEqual(12 - 1e-9);
          expect(targetF).toBeLessThanOrEqual(51 + 1e-9);
        },
      ),
    );
  });

  test.each([
    [49.9, 80],
    [76.1, 80],
    [60, 39.9],
    [60, 115.1],
    [Number.NaN, 80],
  ])("wet bulb %d F and dry bulb %d F lie outside the table", (wetBulbF, dryBulbF) => {
    expect(targetSuperheatK(toKelvin(wetBulbF, "F"), toKelvin(dryBulbF, "F"))).toMatchObject({
      error: { code: "outside-table" },
    });
  });

  test("next to a blank cell there is no answer, not an extrapolated one", () => {
    expect(targetSuperheatK(toKelvin(59, "F"), toKelvin(82, "F"))).toMatchObject({
      error: { code: "do-not-charge-by-superheat" },
    });
  });

  test("a check taken too soon, too cold or with too low a target says nothing", () => {
    const check = { method: "superheat", measuredK: 6, targetK: 6, outdoorDryBulbK: 300, runningS: 900 } as const;
    expect(judgeChargeCheck(check).verdict).toBe("on-target");
    expect(judgeChargeCheck({ ...check, runningS: 899 }).reasons[0]?.code).toBe("not-stabilised");
    expect(judgeChargeCheck({ ...check, outdoorDryBulbK: 284 }).reasons[0]?.code).toBe("too-cold-outdoors");
    expect(judgeChargeCheck({ ...check, targetK: 2, measuredK: 2 }).reasons[0]?.code).toBe("target-too-low");
    expect(judgeChargeCheck({ ...check, measuredK: 12 }).reasons[0]?.code).toBe("points-to-low");
    expect(judgeChargeCheck({ ...check, method: "subcooling", measuredK: 12 }).reasons[0]?.code).toBe("points-to-high");
  });
});

describe("flammable charge and the room", () => {
  const room: RoomCharge = {
    lowerFlammableLimitKgPerM3: 0.307,
    mildlyFlammable: true,
    releaseHeightM: 1.8,
    roomAreaM2: 15,
    edition: "iec-60335-2-40-2018",
  };

  test("little charge asks no room, much is beyond the formula, between them the room decides", () => {
    expect(judgeRoomCharge(1.5, room).verdict).toBe("unrestricted");
    expect(judgeRoomCharge(3, room).verdict).toBe("fits-room");
    expect(judgeRoomCharge(5, room).verdict).toBe("room-too-small");
    expect(judgeRoomCharge(9, room).verdict).toBe("beyond-formula");
  });

  test("a release height under 0.6 m counts as 0.6 m", () => {
    expect(leastRoomAreaM2(2, { ...room, releaseHeightM: 0 })).toBe(
      leastRoomAreaM2(2, { ...room, releaseHeightM: 0.6 }),
    );
  });

  test("the least room is the room in which the charge just fits", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.9, max: 7.9, noNaN: true }),
        fc.constantFrom("iec-60335-2-40-older", "iec-60335-2-40-2018", "ul-60335-2-40-4th" as const),
        (chargeKg, edition) => {
          const roomAreaM2 = leastRoomAreaM2(chargeKg, { ...room, edition });
          expect(judgeRoomCharge(chargeKg, { ...room, edition, roomAreaM2: roomAreaM2 * 1.001 }).verdict).not.toBe(
            "room-too-small",
          );
          expect(judgeRoomCharge(chargeKg, { ...room, edition, roomAreaM2: roomAreaM2 * 0.999 }).verdict).toBe(
            "room-too-small",
          );
        },
      ),
    );
  });
});
