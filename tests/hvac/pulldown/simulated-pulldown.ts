import type { PulldownReading, PulldownRecord } from "@/lib/hvac/pulldown/record";
import { micronToPa } from "@/lib/hvac/units";
import { saturationPressurePa } from "@/lib/hvac/water";
import { randomFrom } from "../pressure-test/simulated-test";

export type PulldownCause = "dry" | "leak" | "water" | "outgassing" | "restriction" | "tired-pump";

export interface SimulatedPulldown {
  readonly record: PulldownRecord;
  readonly cause: PulldownCause;
  /** Seconds from the last reading until the gauge, as it reads, is at the target; null: not within four hours. */
  readonly trueEtaS: number | null;
}

const HORIZON_S = 4 * 3600;

/** An evacuation with known truth: air and vapour as two gases, water that runs out, oil and walls that give off gas. */
export function simulatePulldown(seed: number): SimulatedPulldown {
  const random = randomFrom(seed + 500_000);
  const uniform = (low: number, high: number) => low + (high - low) * random();
  const logUniform = (low: number, high: number) => low * (high / low) ** random();
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)]!;
  const gaussian = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

  const cause = pick<PulldownCause>([
    "dry",
    "dry",
    "leak",
    "water",
    "water",
    "outgassing",
    "restriction",
    "tired-pump",
  ]);
  const volume = logUniform(0.002, 0.06);
  const wallK = uniform(272, 308);
  const nameplate = logUniform(0.0008, 0.005);
  const ultimatePa = micronToPa(pick([15, 20, 25, 50]));
  const cores = random() < 0.6;
  const diameter = pick([0.0048, 0.0065, 0.0095, 0.0127]);
  const length = pick([0.9, 1.2, 1.5, 1.8]);
  const count = pick([1, 2, 2]);
  const targetPa = micronToPa(pick([250, 300, 500, 500, 500, 1000, 1500]));
  const speed = nameplate * uniform(0.3, 1);
  const share = cause === "restriction" ? logUniform(0.04, 0.2) : logUniform(0.15, 1) * (cores ? 1 : 0.6);
  const viscous = (share * count * Math.PI * diameter ** 4) / (128 * 18.2e-6 * length);
  const molecular = (share * count * Math.PI * 463 * diameter ** 3) / (12 * length);
  const pumpFloor = cause === "tired-pump" ? targetPa * logUniform(0.3, 4) : ultimatePa * uniform(0.7, 1.5);
  const leak =
    cause === "leak"
      ? targetPa * nameplate * logUniform(0.02, 1.2)
      : random() < 0.4
        ? targetPa * nameplate * logUniform(1e-4, 0.02)
        : 0;
  let water = cause === "water" ? logUniform(0.05, 60) : 0; // Pa m3; one gram is about 135
  const water0 = water;
  const evaporation = nameplate * logUniform(0.1, 3);
  const wall = targetPa * nameplate * (cause === "outgassing" ? logUniform(0.05, 0.8) : logUniform(1e-4, 0.04));
  const oil = cause === "outgassing" ? targetPa * nameplate * logUniform(0.05, 2) : 0;
  const oilS = logUniform(300, 4000);
  const noise = uniform(0.002, 0.015);
  const accuracy = pick([0.05, 0.1]);
  const gain = 1 + uniform(-1, 1) * accuracy;
  const resolutionPa = micronToPa(pick([1, 1, 5, 10]));
  const location = random() < 0.85 ? "system" : "pump";
  const everyS = pick([1, 2, 5, 10, 10, 30]);
  const waterPa = saturationPressurePa(wallK);

  let air = uniform(95_000, 101_000);
  let vapour = Math.min(waterPa * uniform(0.2, 0.8), 1500);
  let t = 0;
  let coldK = 0;
  const shown: PulldownReading[] = [];
  let reached: number | null = null;
  const cutDraw = random();
  let cutS: number | null = null;
  let nextS = 0;
  let lastS = 0;
  for (let step = 0; step < 2e6; step++) {
    const total = air + vapour;
    // Flow balance between hose and pump, by bisection.
    let low = 0;
    let high = total;
    for (let k = 0; k < 26; k++) {
      const middle = (low + high) / 2;
      const through = (viscous * (total + middle) * 0.5 + molecular) * (total - middle);
      if (through > speed * (middle - pumpFloor)) low = middle;
      else high = middle;
    }
    const inletPa = (low + high) / 2;
    if (t >= nextS - 1e-9) {
      const read = (location === "system" ? total : inletPa) * gain * Math.exp(noise * gaussian());
      const rounded = Math.round(read / resolutionPa) * resolutionPa;
      shown.push({ atS: t, pressureAbsPa: Math.min(rounded, 101_325) });
      lastS = t;
      if (reached === null && rounded <= targetPa) {
        reached = t;
        if (cutS === null) break;
      }
      nextS += everyS;
      if (cutS === null && t > 5400) cutS = t;
      if (cutS !== null && t > cutS + HORIZON_S) break;
    }
    const outflow = Math.max(0, speed * (inletPa - pumpFloor));
    const film = water / (water + 0.08 * water0 + 1e-12);
    const fromWater = water > 0 ? evaporation * film * (saturationPressurePa(wallK - coldK) - vapour) : 0;
    const inAir = leak + wall / (1 + t / 300) + oil * Math.exp(-t / oilS);
    const stepS = Math.min(
      Math.max((0.02 * volume) / Math.max(outflow / total, 1e-5), 0.02),
      4,
      nextS - t > 1e-6 ? nextS - t : 4,
    );
    const airRate = (inAir - (outflow * air) / total) / volume;
    const relax = (outflow / total + (water > 0 ? evaporation * film : 0)) / volume;
    const vapourAim =
      relax > 0 ? (water > 0 ? evaporation * film * saturationPressurePa(wallK - coldK) : 0) / volume / relax : vapour;
    air = Math.max(1e-6, air + airRate * stepS);
    vapour = Math.max(1e-9, vapourAim + (vapour - vapourAim) * Math.exp(-relax * stepS));
    water = Math.max(0, water - Math.max(0, fromWater) * stepS);
    coldK += stepS * ((Math.max(0, fromWater) / Math.max(water0, 1e-9)) * 6 - coldK / 600);
    t += stepS;
  }
  const end = reached ?? lastS;
  const cutAt = cutS !== null && reached === null ? Math.max(60, 600 + cutDraw * 4800) : end * (0.15 + 0.8 * cutDraw);
  let readings = shown.filter((reading) => reading.atS <= cutAt);
  if (readings.length < 6) readings = shown.slice(0, Math.min(6, shown.length));
  if (random() < 0.08 && readings.length > 20) {
    const at = 5 + Math.floor(random() * (readings.length - 8));
    readings[at] = {
      ...readings[at]!,
      pressureAbsPa: pick([0, 101_325, Math.min(101_325, 10 * readings[at]!.pressureAbsPa)]),
    };
  }
  const last = readings[readings.length - 1]!.atS;
  const eta = reached === null ? null : Math.max(0, reached - last);
  return {
    cause,
    trueEtaS: eta !== null && eta > HORIZON_S ? null : eta,
    record: {
      internalVolumeM3: volume,
      wallTemperatureK: wallK,
      pump: { speedM3PerS: nameplate, ultimateAbsPa: ultimatePa },
      valveCoresRemoved: cores,
      hoses: { innerDiameterM: diameter, lengthM: length, count },
      gauge: { location, resolutionPa, accuracyFraction: accuracy },
      targetAbsPa: targetPa,
      readings,
    },
  };
}
