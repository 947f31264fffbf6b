import fc from "fast-check";
import { expect, test } from "vitest";
import { allowedDifference, eventsOf, isBlankOffGood, toolEventForm } from "@/lib/registry/tool-event";
import { listToolFaults } from "@/lib/registry/tool-faults";

const gauge = { kind: "vacuum-gauge", calibrationDueOn: "2026-11-27", oilRunHours: null };

test("a gauge may be leaned on through its last day, and not the day after", () => {
  expect(listToolFaults(gauge, "2026-11-27")).toEqual([]);
  expect(listToolFaults(gauge, "2026-11-28")).toEqual(["calibration ran out on 2026-11-27"]);
  expect(listToolFaults({ ...gauge, calibrationDueOn: null }, "2026-11-28")).toEqual([]);
});

test("oil of ten hours, a look overdue and a doubt each say so", () => {
  const pump = { kind: "pump", calibrationDueOn: null, oilRunHours: 10.04, checkDueOn: "2026-01-01T00:00:00.000Z" };
  expect(listToolFaults({ ...pump, doubtedOn: "2026-02-02" }, "2026-11-28")).toEqual([
    "look was due on 2026-01-01",
    "in doubt since 2026-02-02",
    "oil has run 10 h",
  ]);
  expect(listToolFaults({ ...pump, oilRunHours: 9.9, checkDueOn: null }, "2026-11-28")).toEqual([]);
});

test("two gauges of 5 % that step by one micron may differ by both errors and both steps", () => {
  const own = { accuracyPercent: 5, resolution: 1 };
  expect(allowedDifference(400, own, 440, own)).toBeCloseTo(44, 10);
  expect(allowedDifference(400, { accuracyPercent: null, resolution: null }, 440, own)).toBeCloseTo(23, 10);
  expect(
    allowedDifference(400, { accuracyPercent: null, resolution: null }, 440, {
      accuracyPercent: null,
      resolution: null,
    }),
  ).toBeNull();
});

test("two gauges that each keep to what they promise are never called apart", () => {
  const share = fc.double({ min: -1, max: 1, noNaN: true });
  const check = fc.property(
    fc.double({ min: 50, max: 5000, noNaN: true }),
    fc.double({ min: 0, max: 10, noNaN: true }),
    share,
    share,
    (truth, accuracyPercent, a, b) => {
      // a reading errs by its accuracy of the reading itself, and by its step
      const shown = (off: number) => Math.round(truth / (1 - (off * accuracyPercent) / 100));
      const own = { accuracyPercent, resolution: 1 };
      const [one, two] = [shown(a), shown(b)];
      expect(Math.abs(one - two)).toBeLessThanOrEqual(allowedDifference(one, own, two, own)! + 1e-9);
    },
  );
  fc.assert(check, { numRuns: 500, seed: 3 });
});

test("a pump that no longer comes within twice its ultimate is tired; without an ultimate nobody can say", () => {
  expect(isBlankOffGood(50, 25)).toBe(true);
  expect(isBlankOffGood(51, 25)).toBe(false);
  expect(isBlankOffGood(51, null)).toBeNull();
});

test("each kind is asked what it has", () => {
  expect(eventsOf("pump")).toEqual(["oil-changed", "blank-off", "checked"]);
  expect(eventsOf("vacuum-gauge")).toEqual(["calibrated", "compared"]);
  expect(eventsOf("hoses")).toEqual(["checked"]);
});

test.each([
  ["a comparison without the other one", { what: "compared", reading: "400", otherReading: "410" }, "otherToolId"],
  ["a blank-off test without its reading", { what: "blank-off" }, "micron"],
  ["a calibration due before it was done", { what: "calibrated", dueOn: "2026-11-01" }, "dueOn"],
  ["a day that is none", { what: "checked", onDay: "2026-02-30" }, "onDay"],
])("%s is refused at its field", (_name, fields, path) => {
  const parsed = toolEventForm.safeParse({ onDay: "2026-11-28", ...fields });
  expect(parsed.success).toBe(false);
  expect(parsed.error!.issues[0]!.path).toEqual([path]);
});
