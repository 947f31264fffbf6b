import { describe, expect, test } from "vitest";
import { judgeHold } from "@/lib/hvac/hold/judge-hold";
import { holdFromWire, holdToWire, holdWire } from "@/lib/hvac/hold/schema";

const good = {
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

function refusedAt(change: object): string | undefined {
  const parsed = holdWire.safeParse({ ...good, ...change });
  return parsed.success ? undefined : parsed.error.issues[0]!.path.join(".");
}

describe("a hold on the wire", () => {
  test("a good line is read into SI and answered in micron under its own id", () => {
    const record = holdFromWire(holdWire.parse(good));
    expect(record.criteria.holdS).toBe(600);
    expect(record.criteria.targetPa).toBeCloseTo(66.661184, 6); // definition of the torr
    const answer = holdToWire("a1", judgeHold(record));
    expect(answer.id).toBe("a1");
    expect(answer.verdict).toBe("unproven");
    expect(answer.rulesVersion).not.toBe("");
  });

  test.each([
    ["readings.1.micron", { readings: [good.readings[0], { s: 5, micron: Number.NaN }] }],
    ["readings.1.micron", { readings: [good.readings[0], { s: 5, micron: -1 }] }],
    ["readings.1.micron", { readings: [good.readings[0], { s: 5, micron: 800_000 }] }],
    [
      "readings.1.s",
      {
        readings: [
          { s: 9, micron: 310 },
          { s: 5, micron: 318 },
        ],
      },
    ],
    ["readings.0.s", { readings: [{ s: Number.POSITIVE_INFINITY, micron: 310 }] }],
    ["refrigerant", { refrigerant: "R-0" }],
    ["gauge.location", { gauge: { ...good.gauge, location: "roof" } }],
    ["criteria.holdMinutes", { criteria: { ...good.criteria, holdMinutes: 0 } }],
    ["internalVolumeL", { internalVolumeL: 0 }],
    ["", { colour: "blue" }],
  ])("bad input is refused where it stands: %s", (path, change) => {
    expect(refusedAt(change)).toBe(path);
  });

  test("full scale within the gauge's tolerance and no readings at all are not errors", () => {
    expect(refusedAt({ readings: [{ s: 0, micron: 790_000 }] })).toBeUndefined();
    expect(refusedAt({ readings: [] })).toBeUndefined();
    expect(judgeHold(holdFromWire(holdWire.parse({ ...good, readings: [] }))).verdict).toBe("unproven");
  });
});
