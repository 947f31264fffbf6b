import type { PressureTestRecord } from "@/lib/hvac/pressure-test/record";
import { randomFrom } from "./simulated-test";

/**
 * A nitrogen test built another way: two volumes sharing one gas, one outdoors with its own lag, one indoors at a steady
 * temperature; closed-form weather; ideal gas with a fixed compressibility slope; a log by hand or by radio.
 */
export function twoBodyTest(seed: number): { record: PressureTestRecord; trueLeakPaPerS: number } {
  const random = randomFrom(seed + 90_000);
  const between = (low: number, high: number) => low + (high - low) * random();
  const atmosphericPa = 101_325;
  const startGaugePa = between(1.5e6, 4e6);
  const holdS = [1800, 3600, 7200, 14_400][Math.floor(random() * 4)]!;
  const everyS = holdS / [8, 30, 120, 360][Math.floor(random() * 4)]!;
  const outdoors = between(0.55, 1);
  const lagS = between(180, 1500);
  const offK = between(-2, 8);
  const outK = between(275, 305);
  const inK = 294;
  const rateKPerS = between(-2, 2) / 3600;
  const allowed = between(3000, 15_000) / 3600;
  const leak = random() < 0.5 ? 0 : allowed * between(1.1, 12);
  const resolutionPa = [100, 1000][Math.floor(random() * 2)]!;
  const airAt = (t: number) => outK + rateKPerS * t;
  // Gas behind a first-order lag in air that changes in a straight line.
  const gasAt = (t: number) => airAt(t) - rateKPerS * lagS * (1 - Math.exp(-t / lagS)) + offK * Math.exp(-t / lagS);
  const meanAt = (t: number) => 1 / (outdoors / gasAt(t) + (1 - outdoors) / inK);
  const startPa = startGaugePa + atmosphericPa;
  const readings = [];
  for (let t = 0; t <= holdS + 1e-6; t += everyS) {
    const left = Math.exp((-leak * t) / startPa);
    const shown = (startPa * left * meanAt(t)) / meanAt(0) - atmosphericPa + resolutionPa * (random() + random() - 1);
    readings.push({
      atS: t,
      gaugePa: Math.round(shown / resolutionPa) * resolutionPa,
      temperatureK: Math.round((airAt(t) + 0.1 * (random() - 0.5)) * 10) / 10,
    });
  }
  const gauge = { resolutionPa, accuracyFraction: 0.005 };
  const criteria = { testGaugePa: startGaugePa * 0.99, holdS, maxLeakPaPerS: allowed };
  const fixed = {
    internalVolumeM3: 0.01,
    atmosphericPa,
    maxTestGaugePa: 6e6,
    refrigerant: "R-32",
    temperatureAccuracyK: 0.5,
  };
  return { record: { ...fixed, gauge, criteria, readings }, trueLeakPaPerS: leak };
}
