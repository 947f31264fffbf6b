import type { PulldownRecord } from "@/lib/hvac/pulldown/record";
import { randomFrom } from "../pressure-test/simulated-test";

/** A pulldown built another way: wide hoses, so one speed throughout, and a closed form with a load that may hold it up. */
export function steadyRigPulldown(seed: number): { record: PulldownRecord; trueEtaS: number | null } {
  const random = randomFrom(seed + 700_000);
  const between = (low: number, high: number) => low + (high - low) * random();
  const volume = between(0.005, 0.05);
  const nameplate = between(0.0015, 0.004);
  const speed = nameplate * between(0.4, 1);
  const targetPa = 66.66;
  const stalls = random() < 0.25;
  const floorPa = targetPa * (stalls ? between(1.3, 4) : between(0.02, 0.6));
  const perS = speed / volume;
  const pressureAt = (t: number) => floorPa + 101_325 * Math.exp(-perS * t);
  const reachedS = stalls ? null : Math.log(101_325 / (targetPa - floorPa)) / perS;
  const stallS = Math.log(101_325 / (0.02 * floorPa)) / perS;
  const endS = reachedS === null ? stallS + between(120, 900) : reachedS * between(0.5, 0.95);
  const everyS = Math.max(1, endS / 80);
  const readings = [];
  for (let t = 0; t <= endS; t += everyS) {
    const pressure = pressureAt(t) * (1 + 0.006 * (random() + random() + random() - 1.5));
    readings.push({ atS: t, pressureAbsPa: Math.min(101_325, Math.max(0.1, Math.round(pressure / 0.1333) * 0.1333)) });
  }
  const lastS = readings[readings.length - 1]!.atS;
  return {
    trueEtaS: reachedS === null ? null : reachedS - lastS,
    record: {
      internalVolumeM3: volume,
      wallTemperatureK: 295,
      pump: { speedM3PerS: nameplate, ultimateAbsPa: 3 },
      valveCoresRemoved: true,
      hoses: { innerDiameterM: 0.019, lengthM: 1, count: 2 },
      gauge: { location: "system", resolutionPa: 0.1333, accuracyFraction: 0.05 },
      targetAbsPa: targetPa,
      readings,
    },
  };
}
