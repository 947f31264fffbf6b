import { spawnSync } from "node:child_process";
import { once } from "node:events";
import { PassThrough, Readable } from "node:stream";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DEFERRAL_LINE } from "@/lib/hvac/cautions";
import { answerLines } from "@/scripts/hvac/answer-lines";
import { COMMANDS } from "@/scripts/hvac/commands";

async function ask(name: string, input: string | readonly Buffer[]) {
  const output = new PassThrough();
  const collected: Buffer[] = [];
  output.on("data", (chunk: Buffer) => collected.push(chunk));
  const chunks = typeof input === "string" ? [Buffer.from(input)] : input;
  const refused = await answerLines(Readable.from(chunks, { objectMode: false }), output, COMMANDS[name]!.answer);
  output.end();
  if (!output.closed) await once(output, "close");
  const text = Buffer.concat(collected).toString();
  return {
    refused,
    text,
    answers: text
      .split("\n")
      .filter(Boolean)
      .map((line) => JSON.parse(line)),
  };
}

const run = (args: readonly string[], input = "") =>
  spawnSync(process.execPath, ["scripts/bundled.mjs", "scripts/hvac.ts", ...args], { input, encoding: "utf8" });

const held = {
  id: "a1",
  internalVolumeL: 12.4,
  wallTemperatureC: 21,
  refrigerant: "R-410A",
  gauge: { location: "system", resolutionMicron: 1, accuracyPercent: 5 },
  criteria: { targetMicron: 500, holdMinutes: 10, maxFinalMicron: 1000, maxSteadyRiseMicronPerMin: 10 },
  readings: [
    { s: 0, micron: 310 },
    { s: 5, micron: 318, temperatureC: 21.1 },
  ],
};

describe("the engine as a command", () => {
  test("answers in order, each with its question's id, and names what is wrong with a bad line", async () => {
    const { answers, refused } = await ask(
      "water",
      '{"id":"a","temperatureC":10}\nnot json\n\n{"id":7,"temperatureC":"x"}\n{"id":8}\n{"id":9,"temperatureC":-20}',
    );
    expect(refused).toBe(3);
    expect(answers).toMatchObject([
      { id: "a", phase: "liquid" },
      { id: null, line: 2, error: { code: "not-json", path: "" } },
      { id: 7, line: 4, error: { code: "wrong-type", path: "temperatureC" } },
      { id: 8, line: 5, error: { code: "missing", path: "temperatureC" } },
      { id: 9, phase: "ice" },
    ]);
  });

  test.each([
    ["NaN", '{"id":1,"refrigerant":"R-22","temperatureC":NaN}', null, "not-json", ""],
    ["infinity", '{"id":1,"refrigerant":"R-22","temperatureC":1e999}', 1, "wrong-type", "temperatureC"],
    [
      "an unknown refrigerant",
      '{"id":1,"refrigerant":"R-999","temperatureC":1}',
      1,
      "unknown-refrigerant",
      "refrigerant",
    ],
    ["a misspelt field", '{"id":1,"refrigerant":"R-22","temperatureC":1,"x":1}', 1, "unknown-field", "x"],
    [
      "a negative absolute pressure",
      '{"id":1,"refrigerant":"R-22","pressureKPaAbs":-1}',
      1,
      "out-of-range",
      "pressureKPaAbs",
    ],
    [
      "a range left",
      '{"id":1,"refrigerant":"R-22","temperatureC":80}',
      1,
      "temperature-outside-correlation",
      "temperatureC",
    ],
  ])("saturation refuses %s", async (_what, line, id, code, path) => {
    const { answers } = await ask("saturation", line);
    expect(answers).toMatchObject([{ id, line: 1, error: { code, path } }]);
  });

  test("a range left is said with the range", async () => {
    const { answers } = await ask("saturation", '{"id":1,"refrigerant":"R-744","temperatureC":40}');
    expect(answers[0].error.message).toContain("-56.048 to 24.978 C");
  });

  test.each([
    [
      "a word for a number",
      {
        readings: [
          { s: 0, micron: 1 },
          { s: 1, micron: "x" },
        ],
      },
      "readings.1.micron",
      "wrong-type",
    ],
    [
      "time that runs backwards",
      {
        readings: [
          { s: 9, micron: 1 },
          { s: 1, micron: 1 },
        ],
      },
      "readings.1.s",
      "time-runs-backwards",
    ],
    ["sixty days and more", { readings: [0, 6e6].map((s) => ({ s, micron: 1 })) }, "readings.1.s", "record-too-long"],
    ["a reading above the atmosphere", { readings: [{ s: 0, micron: 900_000 }] }, "readings.0.micron", "out-of-range"],
    ["a negative reading", { readings: [{ s: 0, micron: -1 }] }, "readings.0.micron", "out-of-range"],
    ["a place that is none", { gauge: { ...held.gauge, location: "roof" } }, "gauge.location", "not-allowed"],
    ["an unknown refrigerant", { refrigerant: "R-999" }, "refrigerant", "unknown-refrigerant"],
  ])("hold refuses %s and says where", async (_what, over, path, code) => {
    const { answers } = await ask("hold", JSON.stringify({ ...held, ...over }));
    expect(answers).toMatchObject([{ id: "a1", line: 1, error: { path, code } }]);
  });

  test("too few readings are unproven, not an error", async () => {
    const { answers, refused } = await ask("hold", JSON.stringify(held));
    expect(refused).toBe(0);
    expect(answers[0]).toMatchObject({ id: "a1", verdict: "unproven" });
  });

  test("however the stream is cut, the answers are the same", async () => {
    const input = Buffer.from(
      '{"id":"grün","temperatureC":1}\r\n{"id":2,"temperatureC":2}\n\n{"id":3}\n{"id":4,"temperatureC":4}',
    );
    const whole = await ask("water", [input]);
    expect(whole.answers).toHaveLength(4);
    await fc.assert(
      fc.asyncProperty(fc.array(fc.integer({ min: 1, max: input.length - 1 }), { maxLength: 12 }), async (cuts) => {
        const at = [0, ...[...new Set(cuts)].sort((a, b) => a - b), input.length];
        const pieces = at.slice(1).map((end, index) => input.subarray(at[index], end));
        expect((await ask("water", pieces)).text).toBe(whole.text);
      }),
    );
  });

  test("bytes that are not UTF-8 spoil their own line only", async () => {
    const bad = Buffer.concat([
      Buffer.from('{"id":"'),
      Buffer.from([0xff, 0xfe]),
      Buffer.from('"}\n{"id":2,"temperatureC":2}\n'),
    ]);
    const { answers } = await ask("water", [bad]);
    expect(answers).toMatchObject([{ id: null, line: 1, error: { code: "line-unreadable" } }, { id: 2 }]);
  });

  test("a slow reader holds the asker back instead of filling memory", async () => {
    const output = new PassThrough({ highWaterMark: 1 << 14 });
    let asked = 0;
    const input = Readable.from(
      (function* () {
        for (; asked < 20_000; asked++) yield Buffer.from(`{"id":${asked},"temperatureC":10}\n`);
      })(),
      { objectMode: false },
    );
    const done = answerLines(input, output, COMMANDS.water!.answer);
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(asked).toBeLessThan(5_000);
    output.resume();
    await done;
    expect(asked).toBe(20_000);
  });

  test("status 0 when every line is answered, 2 when one is not, 64 for an unknown command", () => {
    expect(run(["water"], '{"id":1,"temperatureC":1}\n').status).toBe(0);
    expect(run(["water"], '{"id":1}\n{"id":2,"temperatureC":1}\n')).toMatchObject({ status: 2 });
    const unknown = run(["solder"]);
    expect(unknown).toMatchObject({ status: 64, stdout: "" });
    expect(unknown.stderr).toContain("solder");
    for (const args of [["constructor"], ["__proto__", "--help"], ["solder", "--help"], ["water", "--salt"]])
      expect(run(args), args.join(" ")).toMatchObject({ status: 64, stdout: "" });
    expect(run([]).status).toBe(64);
    const help = run(["--help"]);
    expect(help.status).toBe(0);
    for (const name of Object.keys(COMMANDS)) expect(help.stdout).toContain(name);
    expect(run(["recovery", "--help"]).stdout).toContain("[afterWaitKPaGauge]");
  });
});

/** One question for each command of the rules, answered as its own tests say in full. */
test.each([
  [
    "recovery",
    {
      refrigerant: "R-134a",
      fullChargeKg: 100,
      machineMade: "on-or-after-1993-11-15",
      atmosphericKPa: 101.325,
      finalKPaGauge: -50.8,
    },
    { verdict: "reached", required: { value: 15, unit: "inHg-vacuum" } },
  ],
  [
    "cylinder",
    {
      refrigerant: "R-410A",
      tense: "intended",
      date: "2026-11-25",
      grossKg: 20,
      cylinder: {
        waterCapacityKg: 21.6,
        tareKg: 12,
        contents: null,
        requalificationDueOn: "2028-04-30",
        disposable: false,
        damaged: false,
        markedForFlammables: false,
      },
    },
    { verdict: "accepted" },
  ],
  [
    "charge",
    { factoryChargeKg: 3, lineRateGramPerM: 50, lineLengthM: 10, includedKg: 0.2, weighedKg: 3.3 },
    { totalKg: 3.3, verdict: "as-planned" },
  ],
  [
    "superheat",
    {
      refrigerant: "R-410A",
      atmosphericKPa: 101.3,
      kPaGauge: 820,
      lineTemperatureC: 10,
      check: { outdoorDryBulbC: 35, runningMinutes: 20, indoorWetBulbC: 20 },
    },
    { mark: "read", source: "California reference appendix RA3.2.2 (2008, 2013)" },
  ],
  ["subcooling", { refrigerant: "R-410A", atmosphericKPa: 101.3, kPaGauge: 2600, lineTemperatureC: 38 }, {}],
  [
    "room-charge",
    { refrigerant: "R-32", chargeKg: 3, roomAreaM2: 15, place: "wall", edition: "iec-60335-2-40-2018" },
    { verdict: "fits-room" },
  ],
  [
    "leak-rate",
    {
      method: "annualizing",
      use: "commercial-refrigeration",
      refrigerant: "R-404A",
      fullChargeKg: 100,
      topUps: [
        { date: "2026-01-01", addedKg: 1 },
        { date: "2026-06-30", addedKg: 10 },
      ],
    },
    { verdict: "above-trigger", part: "part-84" },
  ],
  ["eu-leak-check", { refrigerant: "R-404A", chargeKg: 13 }, { everyMonths: 6 }],
  [
    "leak-size",
    { refrigerant: "R-410A", internalVolumeL: 12.4, riseMicronPerMin: 5, operatingKPaAbs: 1000 },
    { refrigerant: "R-410A" },
  ],
  [
    "verification",
    {
      repairedOn: "2026-11-20",
      initialTestOn: "2026-11-20",
      initialTestPassed: true,
      normalOperationOn: null,
      followUpTestOn: null,
      followUpTestPassed: false,
    },
    { state: "follow-up-due", dueBy: "2026-11-30" },
  ],
  ["cautions", { step: "open_repair", safetyClass: "A2L" }, { deferral: DEFERRAL_LINE }],
  [
    "triple-evacuation",
    { internalVolumeL: 12.4, temperatureC: 20, cycles: [{ pullToMicron: 1000, breakToKPaAbs: 101.325 }] },
    {},
  ],
  [
    "pump-oil",
    { runningHoursSinceChange: 9, wetOrContaminatedSinceChange: false, look: "clear" },
    { verdict: "fit", remainingHours: 1 },
  ],
] as const)("%s answers", async (name, question, expected) => {
  const { answers, refused } = await ask(name, JSON.stringify({ id: name, ...question }));
  expect(refused).toBe(0);
  expect(answers).toMatchObject([{ id: name, ...expected }]);
});
