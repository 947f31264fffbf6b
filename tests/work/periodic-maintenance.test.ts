import fc from "fast-check";
import { expect, test } from "vitest";
import { dayOfTime, LEAD_DAYS, maintenanceForm, timeToCall } from "@/lib/work/periodic-maintenance";

const cycle = { firstDue: "2026-01-31", everyMonths: 1, windowWeeks: 2, timesCalled: 0 };

test("the day of the month does not drift over short months", () => {
  expect([0, 1, 2, 3].map((times) => dayOfTime(cycle, times))).toEqual([
    "2026-01-31",
    "2026-02-28",
    "2026-03-31",
    "2026-04-30",
  ]);
});

test("a call is made four weeks ahead and not a day before", () => {
  const half = { ...cycle, firstDue: "2026-12-29", everyMonths: 6 };
  expect(timeToCall(half, "2026-11-30")).toBeNull();
  expect(timeToCall(half, "2026-12-01")).toEqual({ dueFrom: "2026-12-29", dueBy: "2027-01-12", timesCalled: 1 });
});

test("of times that were missed only the latest is called, and none twice", () => {
  fc.assert(
    fc.property(
      fc.record({ everyMonths: fc.integer({ min: 1, max: 120 }), windowWeeks: fc.integer({ min: 1, max: 26 }) }),
      fc.integer({ min: 0, max: 3000 }),
      fc.array(fc.integer({ min: 1, max: 400 }), { maxLength: 12 }),
      (kept, start, steps) => {
        const dayAfter = (days: number) => new Date(Date.UTC(2026, 0, 31 + days)).toISOString().slice(0, 10);
        let [now, timesCalled] = [start, 0];
        const called: string[] = [];
        for (const step of [0, ...steps]) {
          now += step;
          const time = timeToCall({ ...kept, firstDue: "2026-01-31", timesCalled }, dayAfter(now));
          if (time === null) continue;
          expect(time.dueFrom <= dayAfter(now + LEAD_DAYS)).toBe(true);
          expect(dayOfTime({ ...cycle, ...kept }, time.timesCalled) > dayAfter(now + LEAD_DAYS)).toBe(true);
          called.push(time.dueFrom);
          ({ timesCalled } = time);
        }
        expect(called).toEqual([...new Set(called)].sort());
      },
    ),
  );
});

test("a plan as typed is read or refused by field", () => {
  const typed = {
    equipmentId: "01a22027-5752-752d-a8b9-7ab785117eed",
    circuitId: "",
    what: "Clean the coils",
    everyMonths: "6",
    firstDue: "2026-12-01",
    windowWeeks: "2",
  };
  expect(maintenanceForm.parse(typed)).toMatchObject({ circuitId: null, everyMonths: 6, windowWeeks: 2 });
  for (const wrong of [
    { everyMonths: "0" },
    { everyMonths: "1.5" },
    { windowWeeks: "27" },
    { firstDue: "2026-02-30" },
    { what: " " },
  ])
    expect(maintenanceForm.safeParse({ ...typed, ...wrong }).error?.issues.map(({ path }) => path[0])).toEqual(
      Object.keys(wrong),
    );
});
