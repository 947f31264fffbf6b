import fc from "fast-check";
import { expect, test } from "vitest";
import { addDays, addMonths, daysBetween } from "@/lib/hvac/calendar-day";

test("days added are days between, over leap years and clock changes", () => {
  const noon = { min: new Date("1990-01-01"), max: new Date("2090-01-01"), noInvalidDate: true };
  fc.assert(
    fc.property(fc.date(noon), fc.integer({ min: -4_000, max: 4_000 }), (date, days) => {
      const day = date.toISOString().slice(0, 10);
      expect(daysBetween(day, addDays(day, days))).toBe(days);
    }),
  );
});

test.each([
  ["2024-01-31", 1, "2024-02-29"],
  ["2026-01-31", 1, "2026-02-28"],
  ["2026-11-25", 3, "2027-02-25"],
  ["2026-12-31", 12, "2027-12-31"],
])("%s and %d months is %s", (day, months, later) => {
  expect(addMonths(day, months)).toBe(later);
});
