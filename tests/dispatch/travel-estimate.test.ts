import fc from "fast-check";
import { expect, test } from "vitest";
import { estimateTravelSeconds, greatCircleKm, MIXED_ROADS } from "@/lib/dispatch";

const place = fc.record({
  latitudeDeg: fc.double({ min: -80, max: 80, noNaN: true }),
  longitudeDeg: fc.double({ min: -180, max: 180, noNaN: true }),
});

test("a quarter of a great circle is a quarter of the circle's length", () => {
  const pole = { latitudeDeg: 90, longitudeDeg: 0 };
  const equator = { latitudeDeg: 0, longitudeDeg: 77 };
  expect(greatCircleKm(pole, equator)).toBeCloseTo((Math.PI / 2) * 6371.0088, 6);
});

test("no way takes less time than a shorter one, and staying takes none", () => {
  fc.assert(
    fc.property(place, place, place, (a, b, c) => {
      const seconds = estimateTravelSeconds([a, b, c], MIXED_ROADS);
      expect(seconds[0]![0]).toBe(0);
      if (greatCircleKm(a, b) <= greatCircleKm(a, c)) expect(seconds[0]![1]!).toBeLessThanOrEqual(seconds[0]![2]! + 1);
    }),
  );
});

test("three straight kilometres are 3.9 on the road: nine minutes at 25 km/h and three to the door", () => {
  const km = 3 / 6371.0088 / (Math.PI / 180);
  const seconds = estimateTravelSeconds(
    [
      { latitudeDeg: 0, longitudeDeg: 0 },
      { latitudeDeg: km, longitudeDeg: 0 },
    ],
    MIXED_ROADS,
  );
  expect(seconds[0]![1]).toBe(Math.round((3.9 / 25) * 3600) + 180);
});
