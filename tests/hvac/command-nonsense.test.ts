import fc from "fast-check";
import { expect, test } from "vitest";
import { COMMANDS } from "@/scripts/hvac/commands";

const held = {
  internalVolumeL: 12.4,
  wallTemperatureC: 21,
  refrigerant: "R-410A",
  gauge: { location: "system", resolutionMicron: 1, accuracyPercent: 5 },
  criteria: { targetMicron: 500, holdMinutes: 10, maxFinalMicron: 1000, maxSteadyRiseMicronPerMin: 10 },
  readings: [
    { s: 0, micron: 310 },
    { s: 300, micron: 318 },
    { s: 600, micron: 322 },
  ],
};
const pressureTest = {
  internalVolumeL: 12,
  atmosphericKPa: 101.3,
  maxTestKPaGauge: 4000,
  gas: "nitrogen",
  refrigerant: "R-410A",
  gauge: { resolutionKPa: 1, accuracyPercent: 1 },
  temperatureAccuracyC: 0.5,
  criteria: { testPressureKPaGauge: 3000, holdMinutes: 60, maxLeakKPaPerHour: 20 },
  readings: [0, 600, 1800, 3600].map((s) => ({ s, kPaGauge: 3001, temperatureC: 21 })),
};
const pulldown = {
  internalVolumeL: 12,
  wallTemperatureC: 21,
  pump: { litresPerSecond: 2, ultimateMicron: 20 },
  valveCoresRemoved: true,
  hoses: { innerDiameterMm: 9.5, lengthM: 1.5, count: 1 },
  gauge: { location: "system", resolutionMicron: 1, accuracyPercent: 5 },
  targetMicron: 500,
  readings: [700_000, 20_000, 3000].map((micron, index) => ({ s: 30 * index, micron })),
};
const cylinder = {
  waterCapacityKg: 21.6,
  tareKg: 12,
  contents: null,
  requalificationDueOn: "2028-04-30",
  disposable: false,
  damaged: false,
  markedForFlammables: false,
};
const sound: Readonly<Record<string, object>> = {
  hold: held,
  "pressure-test": pressureTest,
  pulldown,
  saturation: { refrigerant: "R-22", temperatureC: 20 },
  water: { temperatureC: 20 },
  recovery: {
    refrigerant: "R-22",
    fullChargeKg: 3,
    machineMade: "on-or-after-1993-11-15",
    atmosphericKPa: 101,
    finalKPaGauge: 0,
  },
  cylinder: { refrigerant: "R-22", tense: "intended", date: "2026-11-25", grossKg: 20, cylinder },
  charge: { factoryChargeKg: 3, lineRateGramPerM: 50, lineLengthM: 10, includedKg: 0.2, addersKg: [0.1] },
  superheat: {
    refrigerant: "R-22",
    atmosphericKPa: 101,
    kPaGauge: 480,
    lineTemperatureC: 14,
    check: { outdoorDryBulbC: 32, runningMinutes: 20, indoorDryBulbC: 25, indoorHumidityPercent: 50 },
  },
  subcooling: { refrigerant: "R-22", atmosphericKPa: 101, kPaGauge: 1600, lineTemperatureC: 38 },
  "room-charge": { refrigerant: "R-32", chargeKg: 3, roomAreaM2: 15, place: "wall", edition: "iec-60335-2-40-2018" },
  "leak-rate": {
    method: "rolling",
    use: "other",
    refrigerant: "R-22",
    fullChargeKg: 100,
    topUps: [{ date: "2026-01-01", addedKg: 1 }],
  },
  "leak-size": { refrigerant: "R-22", internalVolumeL: 12, riseMicronPerMin: 5, operatingKPaAbs: 1000 },
  "eu-leak-check": { refrigerant: "R-32", chargeKg: 13 },
  "triple-evacuation": {
    internalVolumeL: 12,
    temperatureC: 20,
    cycles: [{ pullToMicron: 1000, breakToKPaAbs: 101 }],
  },
  "pump-oil": { runningHoursSinceChange: 9, wetOrContaminatedSinceChange: false, look: "clear" },
  cautions: { step: "recover" },
  verification: {
    repairedOn: "2026-11-20",
    initialTestOn: null,
    initialTestPassed: false,
    normalOperationOn: null,
    followUpTestOn: null,
    followUpTestPassed: false,
  },
};

/** Every place in a question where something else could stand. */
function placesIn(value: unknown, path: readonly string[] = []): (readonly string[])[] {
  if (typeof value !== "object" || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, inner]) => placesIn(inner, [...path, key]))];
}

function withAt(value: unknown, [key, ...rest]: readonly string[], replacement: unknown): unknown {
  if (key === undefined) return replacement;
  if (Array.isArray(value))
    return value.map((inner, index) => (String(index) === key ? withAt(inner, rest, replacement) : inner));
  const record = value as Record<string, unknown>;
  return { ...record, [key]: withAt(record[key], rest, replacement) };
}

const nonsense = fc.oneof(
  fc.anything(),
  fc.double(),
  fc.constantFrom(0, -0, -1, 1e-300, 1e300, Number.MAX_VALUE, Number.MIN_VALUE, "", "R-22", "2026-02-30", null, [], {}),
);

test("the sound question of every command is answered", () => {
  expect(Object.keys(sound).sort()).toEqual(Object.keys(COMMANDS).sort());
  for (const [name, question] of Object.entries(sound))
    expect(COMMANDS[name]!.answer({ id: name, ...question }), name).toMatchObject({ ok: true });
});

test.each(Object.keys(sound))(
  "%s: nonsense in any one place is refused or answered in finite numbers, never a crash",
  (name) => {
    const question = { id: 1, ...sound[name] };
    fc.assert(
      fc.property(fc.constantFrom(...placesIn(question)), nonsense, (place, replacement) => {
        const outcome = COMMANDS[name]!.answer(withAt(question, place, replacement));
        if (!outcome.ok) expect(outcome.error.message).not.toBe("");
        else expect(findUnsayable(outcome.value)).toBeNull();
      }),
      // A nitrogen test is judged in tenths of a second, the rest in microseconds.
      { numRuns: name === "pressure-test" ? 40 : 400 },
    );
  },
);

/** JSON would turn NaN and infinity into null without a word. */
function findUnsayable(value: unknown, path = ""): string | null {
  if (typeof value === "number") return Number.isFinite(value) ? null : path;
  if (typeof value !== "object" || value === null) return null;
  for (const [key, inner] of Object.entries(value)) {
    const found = findUnsayable(inner, `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}
