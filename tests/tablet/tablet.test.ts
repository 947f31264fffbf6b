import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { valueAt, withValue } from "@/app/(tablet)/_tablet/form/draft";
import { addressOf, placeAt, placeOf } from "@/app/(tablet)/_tablet/place";
import { fieldWord, quantityOfField } from "@/app/(tablet)/_tablet/steps/field-words";
import { awayWords, clockWords, dayWords, stopwatchWords } from "@/app/(tablet)/_tablet/today/time-words";
import {
  formOf,
  otherWords,
  QUANTITY_KINDS,
  type QuantityKind,
  type QuantityName,
  quantityWords,
  toWire,
} from "@/app/(tablet)/_tablet/units/quantity-kinds";

describe("places", () => {
  const id = "0198c2f0-0000-7000-8000-000000000001";
  test("an address leads to its place and back", () => {
    for (const place of [
      { screen: "today" },
      { screen: "visit", visitId: id },
      { screen: "job", jobId: id },
    ] as const) {
      expect(placeAt(addressOf("north", place), "north")).toEqual(place);
    }
  });
  test("another company, an unknown kind or a malformed id is no place", () => {
    expect(placeAt(`/t/south/jobs/${id}`, "north")).toBeNull();
    expect(placeAt("/t/northern", "north")).toBeNull();
    expect(placeOf(["jobs", "1"])).toBeNull();
    expect(placeOf(["jobs", id, "more"])).toBeNull();
    expect(placeOf(["tools", id])).toBeNull();
  });
});

describe("units at the pad", () => {
  const names = Object.keys(QUANTITY_KINDS) as QuantityName[];
  test("every unit of every quantity comes back as it was typed", () => {
    fc.assert(
      fc.property(fc.double({ min: -1000, max: 100_000, noNaN: true }), (typed) => {
        for (const name of names) {
          const kind: QuantityKind = QUANTITY_KINDS[name];
          for (const form of kind.forms) {
            expect(Math.abs(form.fromWire(form.toWire(typed)) - typed)).toBeLessThan(
              1e-6 * Math.max(1, Math.abs(typed)),
            );
          }
        }
      }),
      { numRuns: 50 },
    );
  });
  test("100 psig is 689.5 kPa gauge", () => {
    // 1 psi = 6.894757 kPa, NIST SP 811 (2008) Appendix B.8
    expect(toWire(formOf("gaugePressure", {}), 100)).toBeCloseTo(689.4757, 3);
    expect(quantityWords("gaugePressure", 689.4757, {})).toBe("100.0 psig");
    expect(otherWords("gaugePressure", 689.4757, {})).toBe("689.5 kPa gauge");
  });
  test("a mass in pounds also says pounds and ounces", () => {
    // 1 lb = 0.45359237 kg exactly, NIST SP 811
    expect(quantityWords("mass", 2.5 * 0.45359237, {})).toBe("2.50 lb");
    expect(otherWords("mass", 2.5 * 0.45359237, {})).toBe("2 lb 8.0 oz");
  });
});

describe("drafts", () => {
  test("a value set at a path is read there and leaves the rest alone", () => {
    const draft = { gauge: { location: "system" }, joints: [{ joint: "a" }, { joint: "b" }] };
    const next = withValue(withValue(draft, "gauge.label", "G1"), "joints.1.result", "tight");
    expect(valueAt(next, "gauge.location")).toBe("system");
    expect(valueAt(next, "gauge.label")).toBe("G1");
    expect(next.joints).toEqual([{ joint: "a" }, { joint: "b", result: "tight" }]);
    expect(draft.joints[1]).toEqual({ joint: "b" });
    expect(valueAt({ a: null }, "a.b")).toBeUndefined();
  });
});

describe("times", () => {
  const now = Date.parse("2026-01-05T17:00:00Z");
  test("are the site's", () => {
    expect(clockWords("2026-01-05T17:12:00Z", "America/Denver")).toBe("10:12");
    expect(dayWords("2026-01-06T05:00:00Z", "America/Denver", now)).toBe("today");
    expect(dayWords("2026-01-06T08:00:00Z", "America/Denver", now)).toBe("tomorrow");
  });
  test("say how far away they are", () => {
    expect(awayWords("2026-01-05T17:12:00Z", now)).toBe("in 12 min");
    expect(awayWords("2026-01-05T14:55:00Z", now)).toBe("2 h 5 min ago");
    expect(stopwatchWords(3_723)).toBe("1:02:03");
  });
});

describe("fields in words", () => {
  test("carry their unit to the quantity and lose it in the name", () => {
    expect(quantityOfField("finalGaugeKPa")).toBe("gaugePressure");
    expect(quantityOfField("weighedInKg")).toBe("mass");
    expect(quantityOfField("holdMinutes")).toBe("minutes");
    expect(fieldWord("temperatureAccuracyC")).toBe("Temperature accuracy");
  });
});
