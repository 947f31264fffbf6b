import fc from "fast-check";
import { expect, test } from "vitest";
import { chooseOrigin } from "@/lib/quality";

const job = (jobId: string, sameCircuit: boolean, daysBetween: number) => ({ jobId, sameCircuit, daysBetween });

test("the same circuit goes before a later job on another circuit of the unit", () => {
  expect(chooseOrigin([job("other", false, 1), job("own", true, 60)], 90)?.jobId).toBe("own");
});

test("of several on the same circuit it is the last one closed", () => {
  expect(chooseOrigin([job("first", true, 50), job("last", true, 7), job("middle", true, 20)], 90)?.jobId).toBe("last");
});

test("nothing outside the window, nor closed after the order, is an origin", () => {
  expect(chooseOrigin([job("old", true, 91), job("later", true, -1)], 90)).toBeNull();
  expect(chooseOrigin([], 90)).toBeNull();
});

test("the order in which candidates are listed does not matter", () => {
  const candidates = fc.uniqueArray(
    fc.record({ jobId: fc.uuid(), sameCircuit: fc.boolean(), daysBetween: fc.integer({ min: -5, max: 120 }) }),
    { selector: ({ daysBetween }) => daysBetween, maxLength: 12 },
  );
  fc.assert(
    fc.property(candidates, (list) => {
      expect(chooseOrigin([...list].reverse(), 90)).toEqual(chooseOrigin(list, 90));
    }),
  );
});
