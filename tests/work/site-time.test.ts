import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  addDays,
  clockAt,
  dateInFull,
  dateWords,
  dayAt,
  dayBounds,
  instantAt,
  isDay,
  localFieldValue,
  whenAt,
  whenInFull,
  windowAt,
} from "@/lib/work/site-time";

/*
 * Source of the changes below: IANA time zone database. `northamerica`, rule US from 2007: second Sunday of March and first
 * Sunday of November at 2:00 local. `europe`, rule EU from 1996: last Sunday of March and October at 1:00 UTC; Dublin follows
 * it (Eire rules). The rules are from memory; the dates follow from them and a calendar: 8 March, 1 November, 29 March and
 * 25 October 2026 are Sundays.
 */
const chicago = "America/Chicago";
const dublin = "Europe/Dublin";
const iso = (date: Date | null) => date?.toISOString();

describe("a local time becomes the instant it means", () => {
  test.each([
    [chicago, "2026-01-15T08:00", "2026-01-15T14:00:00.000Z", "winter, UTC-6"],
    [chicago, "2026-07-15T08:00", "2026-07-15T13:00:00.000Z", "summer, UTC-5"],
    [chicago, "2026-03-08T01:59", "2026-03-08T07:59:00.000Z", "the last minute before the gap"],
    [chicago, "2026-03-08T03:00", "2026-03-08T08:00:00.000Z", "the first minute after the gap"],
    [chicago, "2026-03-08T02:30", "2026-03-08T08:30:00.000Z", "in the gap: moved on by its hour, to 03:30"],
    [chicago, "2026-11-01T00:59", "2026-11-01T05:59:00.000Z", "before the repeated hour"],
    [chicago, "2026-11-01T01:30", "2026-11-01T06:30:00.000Z", "in the repeated hour: the first of the two"],
    [chicago, "2026-11-01T02:00", "2026-11-01T08:00:00.000Z", "after it"],
    [dublin, "2026-01-15T08:00", "2026-01-15T08:00:00.000Z", "winter, UTC"],
    [dublin, "2026-07-15T08:00", "2026-07-15T07:00:00.000Z", "summer, UTC+1"],
    [dublin, "2026-03-29T01:30", "2026-03-29T01:30:00.000Z", "in the gap: moved on to 02:30"],
    [dublin, "2026-03-29T02:00", "2026-03-29T01:00:00.000Z", "after the gap"],
    [dublin, "2026-10-25T01:30", "2026-10-25T00:30:00.000Z", "in the repeated hour: the first of the two"],
    [dublin, "2026-10-25T02:00", "2026-10-25T02:00:00.000Z", "after it"],
  ])("%s %s is %s (%s)", (zone, local, instant) => {
    expect(iso(instantAt(local, zone))).toBe(instant);
  });

  test.each([
    ["2026-02-30T08:00", chicago],
    ["2026-13-01T08:00", chicago],
    ["2026-01-01T25:00", chicago],
    ["", chicago],
    ["tomorrow", chicago],
    ["2026-01-01T08:00", "Mars/Olympus"],
  ])("%s in %s is none", (local, zone) => {
    expect(instantAt(local, zone)).toBeNull();
  });
});

describe("a day", () => {
  test.each([
    [chicago, "2026-03-08", 23, "2026-03-08T06:00:00.000Z", "2026-03-09T05:00:00.000Z"],
    [chicago, "2026-11-01", 25, "2026-11-01T05:00:00.000Z", "2026-11-02T06:00:00.000Z"],
    [dublin, "2026-03-29", 23, "2026-03-29T00:00:00.000Z", "2026-03-29T23:00:00.000Z"],
    [dublin, "2026-10-25", 25, "2026-10-24T23:00:00.000Z", "2026-10-26T00:00:00.000Z"],
    [chicago, "2026-11-25", 24, "2026-11-25T06:00:00.000Z", "2026-11-26T06:00:00.000Z"],
  ])("in %s on %s has %i hours", (zone, day, hours, from, to) => {
    const bounds = dayBounds(day, zone);
    expect([iso(bounds.from), iso(bounds.to)]).toEqual([from, to]);
    expect((bounds.to.getTime() - bounds.from.getTime()) / 3_600_000).toBe(hours);
  });

  test("is another one on each side of midnight at the site, whatever the server thinks", () => {
    const at = new Date("2026-11-26T02:00:00Z");
    expect(dayAt(at, chicago)).toBe("2026-11-25");
    expect(dayAt(at, dublin)).toBe("2026-11-26");
  });

  test("counts on over the ends of months and leap years", () => {
    expect(addDays("2026-11-30", 1)).toBe("2026-12-01");
    expect(addDays("2028-02-28", 1)).toBe("2028-02-29"); // 2028 is divisible by 4 and not by 100
    expect(addDays("2026-03-01", -1)).toBe("2026-02-28");
  });

  test("is a date that exists, written as year-month-day", () => {
    expect(["2026-11-25", "2028-02-29"].every(isDay)).toBe(true);
    expect(["2026-02-29", "2026-2-1", "26-11-25", "2026-11-25T08:00", "", null, 20261125].some(isDay)).toBe(false);
  });

  const zones = fc.constantFrom(chicago, dublin, "Asia/Kathmandu", "Pacific/Apia", "America/Santiago");
  const instants = fc.date({ min: new Date("2000-01-01"), max: new Date("2050-01-01"), noInvalidDate: true });
  test("holds every instant that is in it, and days leave no gap between them", () => {
    fc.assert(
      fc.property(instants, zones, (at, zone) => {
        const day = dayAt(at, zone);
        const { from, to } = dayBounds(day, zone);
        expect(from.getTime()).toBeLessThanOrEqual(at.getTime());
        expect(at.getTime()).toBeLessThan(to.getTime());
      }),
    );
  });

  test("and a minute of it comes back through a form field, but for the second of a repeated hour", () => {
    fc.assert(
      fc.property(instants, zones, (at, zone) => {
        const minute = Math.floor(at.getTime() / 60_000) * 60_000;
        const again = instantAt(localFieldValue(new Date(minute), zone), zone)!.getTime();
        expect([0, -3_600_000]).toContain(again - minute);
      }),
    );
  });
});

describe("in words", () => {
  const from = new Date("2026-11-25T14:00:00Z");
  test("a time and a window stand in the site's time", () => {
    expect(clockAt(from, chicago)).toBe("08:00");
    expect(whenAt(from, chicago)).toBe("Wed 25 Nov, 08:00");
    expect(windowAt(from, new Date("2026-11-25T18:00:00Z"), chicago)).toBe("Wed 25 Nov, 08:00 to 12:00");
    expect(windowAt(from, new Date("2026-11-26T18:00:00Z"), chicago)).toBe("Wed 25 Nov, 08:00 to Thu 26 Nov, 12:00");
    expect(dateWords("2026-03-08")).toBe("Sun 8 Mar");
    expect(dateInFull("2025-11-23")).toBe("Sun 23 Nov 2025");
    expect(whenInFull(from, chicago)).toBe("Wed 25 Nov 2026, 08:00");
  });
});
