import { PassThrough, Readable } from "node:stream";
import fc from "fast-check";
import { expect, test } from "vitest";
import { answerLines } from "@/scripts/hvac/answer-lines";
import { COMMANDS } from "@/scripts/hvac/commands";

/* Records within every rule of the wire and wild all the same: several readings at one moment, years between two, any pressure. */

/** Kept: these seeds once found something, or reach every verdict. */
const SEEDS = [1, 7];

/** Evenly spread over its decades. */
const between = (least: number, most: number) =>
  fc.double({ min: Math.log(least), max: Math.log(most), noNaN: true }).map((log) => Math.min(Math.exp(log), most));
const orNone = (most: number) => fc.oneof(fc.constant(0), between(1e-3, most));
const warmth = fc.double({ min: -40, max: 80, noNaN: true });
const micron = fc.oneof(orNone(760_000), fc.integer({ min: 0, max: 760_000 }), between(50, 3000));

function readingsOf<T extends object>(reading: fc.Arbitrary<T>, maxLength: number) {
  const pause = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 5 }), between(1e-6, 1e4));
  return fc.array(fc.tuple(pause, reading), { maxLength }).map((rows) => {
    let s = 0;
    return rows.map(([pauseS, row]) => {
      s += pauseS;
      return { s, ...row };
    });
  });
}

const gauge = fc.record({
  location: fc.constantFrom("system", "pump"),
  resolutionMicron: orNone(1e4),
  accuracyPercent: orNone(100),
});

const records: Readonly<Record<string, { readonly question: fc.Arbitrary<object>; readonly numRuns: number }>> = {
  hold: {
    numRuns: 300,
    question: fc.record({
      id: fc.integer(),
      internalVolumeL: between(1e-3, 1e5),
      wallTemperatureC: warmth,
      refrigerant: fc.constantFrom("R-22", "r410a", "R-744"),
      gauge,
      criteria: fc.record({
        targetMicron: between(1, 760_000),
        holdMinutes: between(1e-3, 1e5),
        maxFinalMicron: between(1, 760_000),
        maxSteadyRiseMicronPerMin: between(1e-3, 760_000),
      }),
      readings: readingsOf(fc.record({ micron, temperatureC: warmth }, { requiredKeys: ["micron"] }), 60),
    }),
  },
  pulldown: {
    numRuns: 15,
    question: fc.record({
      id: fc.integer(),
      internalVolumeL: between(1e-2, 1e4),
      wallTemperatureC: warmth,
      pump: fc.record({ litresPerSecond: between(1e-2, 100), ultimateMicron: between(0.1, 5000) }),
      valveCoresRemoved: fc.boolean(),
      hoses: fc.record({
        innerDiameterMm: between(1, 50),
        lengthM: between(0.1, 20),
        count: fc.integer({ min: 1, max: 4 }),
      }),
      gauge,
      targetMicron: between(1, 1e5),
      readings: readingsOf(fc.record({ micron }), 30),
    }),
  },
  "pressure-test": {
    numRuns: 15,
    question: fc.record({
      id: fc.integer(),
      internalVolumeL: between(1e-2, 1e4),
      atmosphericKPa: fc.double({ min: 60, max: 110, noNaN: true }),
      maxTestKPaGauge: between(1, 2e4),
      gas: fc.constant("nitrogen"),
      refrigerant: fc.constant("R-410A"),
      gauge: fc.record({ resolutionKPa: orNone(1e3), accuracyPercent: orNone(50) }),
      temperatureAccuracyC: orNone(10),
      criteria: fc.record({
        testPressureKPaGauge: between(1, 1e4),
        holdMinutes: between(0.1, 3000),
        maxLeakKPaPerHour: between(1e-3, 1e4),
      }),
      readings: readingsOf(fc.record({ kPaGauge: orNone(1e4), temperatureC: warmth }), 25),
    }),
  },
};

test.each(Object.entries(records).flatMap(([name, each]) => SEEDS.map((seed) => ({ name, seed, ...each }))))(
  "$name: wild records are answered in finite numbers and whole sentences, seed $seed",
  ({ name, seed, question, numRuns }) => {
    fc.assert(
      fc.property(question, (asked) => {
        const outcome = COMMANDS[name]!.answer(asked);
        expect(outcome).toMatchObject({ ok: true });
        if (outcome.ok) expect(findUnsayable(outcome.value)).toBeNull();
      }),
      { seed, numRuns },
    );
  },
);

test("five readings of one moment, falling or not, leave no forecast without a lower end", () => {
  const asked = {
    id: 0,
    internalVolumeL: 1,
    wallTemperatureC: 0,
    pump: { litresPerSecond: 1, ultimateMicron: 1 },
    valveCoresRemoved: false,
    hoses: { innerDiameterMm: 1, lengthM: 1, count: 1 },
    gauge: { location: "system", resolutionMicron: 736.2133825092953, accuracyPercent: 0 },
    targetMicron: 1,
    readings: [50, 1, 319_111, 0, 480_875].map((each) => ({ s: 1, micron: each })),
  };
  expect(COMMANDS.pulldown!.answer(asked)).toMatchObject({
    ok: true,
    value: { interval80S: [expect.any(Number), null] },
  });
});

test.each(SEEDS)(
  "whatever bytes come, every line that is not blank gets one answer, in order, seed %d",
  async (seed) => {
    const bytes = fc.uint8Array({ maxLength: 30 }).map((line) => Buffer.from(line.filter((byte) => byte !== 0x0a)));
    const text = fc.oneof(fc.json(), fc.string(), fc.constant('{"id":1,"temperatureC":10}')).map((line) => {
      return Buffer.from(line.replaceAll("\n", " "));
    });
    await fc.assert(
      fc.asyncProperty(fc.array(fc.oneof(bytes, text), { maxLength: 12 }), async (lines) => {
        const output = new PassThrough({ highWaterMark: 1 << 20 });
        const input = Buffer.concat(lines.flatMap((line) => [line, Buffer.from("\n")]));
        const refused = await answerLines(
          Readable.from([input], { objectMode: false }),
          output,
          COMMANDS.water!.answer,
        );
        const said = String(output.read() ?? "")
          .split("\n")
          .filter(Boolean)
          .map((line) => JSON.parse(line));
        expect(said.filter(({ error }) => error)).toHaveLength(refused);
        const blank = (line: Buffer) => line.toString().trim() === "" && Buffer.from(line.toString()).equals(line);
        expect(said).toHaveLength(lines.filter((line) => !blank(line)).length);
        const at = said.flatMap(({ line }) => (line === undefined ? [] : [line]));
        expect(at).toEqual([...at].sort((a, b) => a - b));
      }),
      { seed, numRuns: 150 },
    );
  },
);

/** JSON would turn NaN and infinity into null without a word, and a sentence would say them. */
function findUnsayable(value: unknown, path = ""): string | null {
  if (typeof value === "number") return Number.isFinite(value) ? null : path;
  if (typeof value === "string") return /NaN|Infinity|undefined|null/.test(value) ? `${path}: ${value}` : null;
  if (typeof value !== "object" || value === null) return null;
  for (const [key, inner] of Object.entries(value)) {
    const found = findUnsayable(inner, `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}
