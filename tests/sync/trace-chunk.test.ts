import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { packChunk, type TraceSample, unpackChunk } from "@/lib/sync/trace-chunk";

const decimal = (min: number, max: number, decimals: number) =>
  fc.integer({ min: min * 10 ** decimals, max: max * 10 ** decimals }).map((whole) => whole / 10 ** decimals);
const sample = (withTemperature: boolean): fc.Arbitrary<TraceSample> =>
  fc.record({
    atMs: fc.integer({ min: 0, max: 4_102_444_800_000 }),
    value: decimal(-200, 800_000, 3),
    ...(withTemperature && { temperatureC: decimal(-60, 120, 2) }),
  });
const unit = fc.constantFrom("micron", "Pa", "mbar", "kPa", "psi", "bar", "Torr" as const);

describe("a packed trace", () => {
  test("gives back exactly what was put in, whatever the order of time and the unit", () => {
    const chunk = fc
      .boolean()
      .chain((t) => fc.record({ unit, samples: fc.array(sample(t), { minLength: 1, maxLength: 60 }) }));
    fc.assert(
      fc.property(chunk, (given) => {
        const packed = packChunk(given);
        if (!packed.ok) throw new Error(packed.error.code);
        expect(unpackChunk(packed.value)).toEqual({ ok: true, value: given });
      }),
    );
  });

  test("takes at most five bytes a sample for a gauge read once a second", () => {
    const samples = Array.from({ length: 4000 }, (_, i) => ({
      atMs: 1_780_000_000_000 + i * 1000,
      value: 300 + Math.floor(i / 7),
    }));
    const packed = packChunk({ unit: "micron", samples });
    expect(packed.ok && packed.value.length / samples.length).toBeLessThan(5);
  });

  test("refuses what no gauge can give, by the sample and field", () => {
    const at = (value: number) =>
      packChunk({
        unit: "Pa",
        samples: [
          { atMs: 0, value: 1 },
          { atMs: 1, value },
        ],
      });
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, 0.12345678]) {
      expect(at(value)).toEqual({ ok: false, error: { code: "not-packable", index: 1, field: "value" } });
    }
    expect(packChunk({ unit: "Pa", samples: [] })).toEqual({ ok: false, error: { code: "no-samples" } });
  });

  test("is refused when cut, lengthened or scrambled, and never read past its end", () => {
    const packed = packChunk({
      unit: "micron",
      samples: [
        { atMs: 5, value: 310 },
        { atMs: 1005, value: 311 },
      ],
    });
    if (!packed.ok) throw new Error("not packed");
    for (let length = 0; length < packed.value.length; length++) {
      expect(unpackChunk(packed.value.subarray(0, length)).ok).toBe(false);
    }
    expect(unpackChunk(Uint8Array.from([...packed.value, 0])).ok).toBe(false);
    fc.assert(fc.property(fc.uint8Array({ maxLength: 80 }), (noise) => void unpackChunk(noise)));
  });
});
