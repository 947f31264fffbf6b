import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { evidenceOf, valueAt, withValue } from "@/app/(tablet)/_tablet/form/draft";
import { withoutAnswered } from "@/app/(tablet)/_tablet/form/form-context";
import { addressOf, placeAt, placeOf } from "@/app/(tablet)/_tablet/place";
import { fieldWord, inOrder, quantityOfField } from "@/app/(tablet)/_tablet/steps/field-words";
import { siteClockName, siteDay, siteFieldValue, siteMoment } from "@/app/(tablet)/_tablet/today/site-clock";
import { awayWords, clockWords, dayWords, stopwatchWords } from "@/app/(tablet)/_tablet/today/time-words";
import {
  differenceWords,
  formOf,
  METRIC,
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

describe("the clock at the site", () => {
  const zone = "America/Denver";
  test("a moment goes into a field by it and comes back as the same minute, in any zone and on any day", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: Date.UTC(2024, 0, 1) / 60_000, max: Date.UTC(2031, 0, 1) / 60_000 }),
        fc.constantFrom(zone, "Europe/Dublin", "Asia/Kolkata", "America/St_Johns", "Pacific/Auckland"),
        (minute, timeZone) => {
          const value = siteFieldValue(minute * 60_000, timeZone);
          const back = siteMoment(value, timeZone)!;
          expect(siteFieldValue(back.getTime(), timeZone)).toBe(value); // the repeated hour of autumn is one of two
          expect(Math.abs(back.getTime() - minute * 60_000)).toBeLessThanOrEqual(3_600_000);
        },
      ),
    );
  });
  test("an hour the clocks skip is moved on by the gap, and what is no time is none", () => {
    expect(siteMoment("2026-03-08T02:30", zone)!.toISOString()).toBe("2026-03-08T09:30:00.000Z"); // 03:30 there
    expect(siteMoment("", zone)).toBeNull();
  });
  test("its day and its name are the site's, not the tablet's", () => {
    const late = Date.parse("2026-11-28T03:00:00Z");
    expect(siteDay(late, zone)).toBe("2026-11-27");
    expect(siteClockName(late, zone)).toBe("MST");
    expect(siteClockName(Date.parse("2026-07-01T12:00:00Z"), zone)).toBe("MDT");
  });
});

describe("a form", () => {
  test("calls nothing unanswered that was touched, nor what lies in it", () => {
    const open = new Map([
      ["gauge.label", "a"],
      ["gauge", "b"],
      ["gaugeKPa", "c"],
    ]);
    expect([...withoutAnswered(open, "gauge").keys()]).toEqual(["gaugeKPa"]);
    expect(withoutAnswered(open, "oil")).toBe(open);
  });
  test("leaves out of the evidence what is only the screen's and what was taken back", () => {
    expect(evidenceOf({ _startMs: 1, oil: "fresh", oilChangedAt: undefined, note: null })).toEqual({
      oil: "fresh",
      note: null,
    });
  });
  test("is read again in the order it was asked in, its note last, whatever order the server keeps", () => {
    const kept = { note: "n", ventilated: true, provenDead: true, somethingNew: 1, lockedOut: true };
    expect(inOrder(kept).map(([field]) => field)).toEqual([
      "lockedOut",
      "provenDead",
      "ventilated",
      "somethingNew",
      "note",
    ]);
  });
});

describe("units at the pad", () => {
  test("a company under metric rules is asked in metric units that exist", () => {
    for (const [name, key] of Object.entries(METRIC)) expect(formOf(name as QuantityName, METRIC).key, name).toBe(key);
    expect(quantityWords("gaugePressure", 100, METRIC)).toBe("1.000 bar gauge");
  });
  test("a difference of pressures is said in the unit they are read in", () => {
    expect(differenceWords(10, {})).toBe("1.45 psi"); // 10 kPa / 6.894757
    expect(differenceWords(10, { gaugePressure: "bar" })).toBe("0.1000 bar");
  });
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
