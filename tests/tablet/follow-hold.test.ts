import fc from "fast-check";
import { expect, test } from "vitest";
import { followHold } from "@/app/(tablet)/_tablet/judging/follow-hold";
import { type HoldRecord, judgeHold, micronToPa } from "@/lib/hvac";
import { holdFromWire } from "@/lib/hvac/schema";
import { KIND_NAMES, simulateHold } from "../hvac/hold/simulator/cases";

/** What may happen to a hold between two looks at it. */
const change = fc.oneof(
  { weight: 5, arbitrary: fc.record({ kind: fc.constant("more" as const), count: fc.integer({ min: 0, max: 40 }) }) },
  fc.record({ kind: fc.constant("corrected" as const), at: fc.nat() }),
  fc.constant({ kind: "stricter" as const }),
  fc.constant({ kind: "warmth-noted" as const }),
  fc.constant({ kind: "last-taken-back" as const }),
  fc.record({ kind: fc.constant("another" as const), seed: fc.integer({ min: 1, max: 50 }) }),
);

function holdOf(seed: number): HoldRecord {
  return holdFromWire(simulateHold(KIND_NAMES[seed % KIND_NAMES.length]!, seed).wire);
}

test("a hold followed is judged as if each record came alone, whatever changed in between", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 50 }), fc.array(change, { minLength: 1, maxLength: 8 }), (seed, changes) => {
      const judge = followHold();
      let whole = holdOf(seed);
      let shown = 1;
      for (const each of changes) {
        const readings = [...whole.readings];
        if (each.kind === "more") shown += each.count;
        else if (each.kind === "last-taken-back") shown = Math.max(1, shown - 1);
        else if (each.kind === "another") whole = holdOf(each.seed);
        else if (each.kind === "stricter")
          whole = { ...whole, criteria: { ...whole.criteria, holdS: whole.criteria.holdS / 2 } };
        else {
          const at = each.kind === "corrected" ? each.at % Math.min(shown, readings.length) : 0;
          const { pressureAbsPa, temperatureK = 290, ...rest } = readings[at]!;
          readings[at] =
            each.kind === "corrected"
              ? { ...readings[at]!, pressureAbsPa: pressureAbsPa + micronToPa(5) }
              : { ...rest, pressureAbsPa, temperatureK: temperatureK + 1 };
          whole = { ...whole, readings };
        }
        // As a worker gets it: nothing is the object it was.
        const record = structuredClone({ ...whole, readings: whole.readings.slice(0, shown) });
        expect(judge(record)).toEqual(judgeHold(record));
      }
    }),
    { seed: 3, numRuns: 40 },
  );
});
