import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { verificationState } from "@/lib/hvac/leak-duties";
import { annualizedLeakRate, rollingLeakRate } from "@/lib/hvac/leak-rate";

describe("leak rate", () => {
  test("what cannot be is refused by name", () => {
    expect(annualizedLeakRate(1, 0, 30)).toMatchObject({ error: { code: "full-charge-not-positive" } });
    expect(annualizedLeakRate(Number.NaN, 10, 30)).toMatchObject({ error: { code: "top-up-negative" } });
    expect(annualizedLeakRate(1, 10, 0)).toMatchObject({ error: { code: "interval-not-positive" } });
    expect(rollingLeakRate([{ date: "2026-01-01", addedKg: -1 }], 10, "2026-02-01").ok).toBe(false);
  });

  test("an old top-up and one from before a passed follow-up test no longer count", () => {
    const topUps = [
      { date: "2025-11-25", addedKg: 5 }, // 365 days ago: outside the last 365 days
      { date: "2025-11-26", addedKg: 1 },
      { date: "2026-06-01", addedKg: 2 },
      { date: "2026-12-01", addedKg: 8 }, // after the day asked about
    ];
    expect(rollingLeakRate(topUps, 10, "2026-11-25")).toEqual({ ok: true, value: 0.3 });
    expect(rollingLeakRate(topUps, 10, "2026-11-25", "2026-03-01")).toEqual({ ok: true, value: 0.2 });
    expect(rollingLeakRate(topUps, 10, "2026-11-25", "2026-06-01")).toEqual({ ok: true, value: 0 });
  });

  test("a longer interval never raises the annualized rate", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 50, noNaN: true }), fc.integer({ min: 1, max: 900 }), (addedKg, days) => {
        const sooner = annualizedLeakRate(addedKg, 100, days);
        const later = annualizedLeakRate(addedKg, 100, days + 1);
        expect(sooner.ok && later.ok && later.value <= sooner.value).toBe(true);
      }),
    );
  });

  test("a repair is verified only by both tests, the second within ten days", () => {
    const record = {
      repairedOn: "2026-11-20",
      initialTestOn: "2026-11-20",
      initialTestPassed: true,
      normalOperationOn: "2026-11-22",
      followUpTestOn: "2026-12-02",
      followUpTestPassed: true,
    };
    expect(verificationState(record).state).toBe("verified");
    expect(verificationState({ ...record, followUpTestOn: "2026-12-03" }).state).toBe("follow-up-late");
    expect(verificationState({ ...record, followUpTestPassed: false }).state).toBe("repair-again");
    expect(verificationState({ ...record, initialTestPassed: false }).state).toBe("repair-again");
    expect(verificationState({ ...record, initialTestOn: null }).state).toBe("initial-due");
  });
});
