import type { PulldownReading, PulldownRecord } from "@/lib/hvac/pulldown/record";
import { micronToPa } from "@/lib/hvac/units";
import { saturationPressurePa } from "@/lib/hvac/water";
import { randomFrom } from "../pressure-test/simulated-test";
import type { SimulatedPulldown } from "./simulated-pulldown";

const HORIZON_S = 4 * 3600;
const CAUSES = ["dry", "dry", "leak", "water", "outgassing", "restriction", "tired-pump"] as const;
/** Heat to evaporate water, J per Pa m3 of vapour at 20 °C: 2.45 MJ/kg times M/(R T). */
const HEAT_J_PER_PA_M3 = 18.1;

/**
 * A pulldown by other physics than the plant's: one gas, hose by Knudsen's transition with the core as an opening in
 * the way, a pump whose speed fades towards its ultimate, a shrinking film that cools by its own evaporation and freezes,
 * refrigerant leaving oil against its vapour pressure, walls by a power of time. The truth is the gauge without its scatter.
 */
export function coldFilmPulldown(seed: number): SimulatedPulldown {
  const random = randomFrom(seed + 900_000);
  const uniform = (low: number, high: number) => low + (high - low) * random();
  const logUniform = (low: number, high: number) => low * (high / low) ** random();
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)]!;
  const gaussian = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

  const cause = pick(CAUSES);
  const volumeM3 = logUniform(0.003, 0.04);
  const wallK = uniform(276, 306);
  const plateM3PerS = pick([0.0009, 0.0014, 0.0019, 0.0028, 0.0038]);
  const ultimatePa = micronToPa(pick([15, 25, 40]));
  const cores = random() < 0.65;
  const hoses = {
    innerDiameterM: pick([0.0048, 0.0064, 0.0095, 0.0095, 0.0127, 0.019]),
    lengthM: uniform(0.6, 2),
    count: pick([1, 1, 2]),
  };
  const targetPa = micronToPa(pick([200, 300, 500, 500, 500, 750, 1000]));
  const speed = plateM3PerS * uniform(0.35, 1);
  const floorPa = cause === "tired-pump" ? micronToPa(logUniform(100, 3000)) : ultimatePa * uniform(0.6, 2);
  const open = cause === "restriction" ? logUniform(0.04, 0.25) : uniform(0.5, 1);
  const leak = cause === "leak" ? targetPa * plateM3PerS * logUniform(0.03, 3) : 0;
  const water0 = cause === "water" ? logUniform(0.3, 40) : 0;
  const film0 = plateM3PerS * logUniform(0.2, 5);
  const warming = logUniform(0.02, 1.5); // W/K between wall and film
  const heatCapacity = logUniform(20, 400);
  const gasLoad = targetPa * plateM3PerS;
  const walls = gasLoad * logUniform(0.001, cause === "outgassing" ? 0.4 : 0.05);
  const power = uniform(0.7, 1.2);
  const oil0 = cause === "outgassing" ? logUniform(0.2, 12) : 0;
  const oilPa = uniform(3, 20) * targetPa;
  const oilS = logUniform(400, 5000);
  const gain = 1 + uniform(-0.08, 0.08);
  const noise = random() < 0.2 ? 0 : logUniform(0.002, 0.015);
  const finest = pick([0.1, 1, 1, 1, 10, 25]);
  const mostPa = random() < 0.15 ? micronToPa(25_000) : 101_325;

  const d = hoses.innerDiameterM * 100;
  const hose = (meanPa: number) => {
    const mbar = meanPa / 100;
    const molecular = ((12.1 * d ** 3) / (hoses.lengthM * 100)) * ((1 + 192 * d * mbar) / (1 + 237 * d * mbar));
    const one = ((135 * d ** 4 * mbar) / (hoses.lengthM * 100) + molecular) / 1000;
    const core = cores ? 1 : 1 / (1 / one + 1 / (0.00025 + 0.0002 * mbar)) / one;
    return open * hoses.count * one * core;
  };
  const throughput = (pressure: number) => {
    let low = 0;
    let high = pressure;
    for (let k = 0; k < 24; k++) {
      const middle = (low + high) / 2;
      const pumped = speed * middle * Math.max(0, 1 - (floorPa / Math.max(middle, 1e-9)) ** 1.1);
      if (hose((pressure + middle) / 2) * (pressure - middle) > pumped) low = middle;
      else high = middle;
    }
    return hose((pressure + low) / 2) * (pressure - low);
  };
  const resolutionPa = (pa: number) => micronToPa(finest) * (finest === 1 && pa > micronToPa(1000) ? 10 : 1);

  let pressure = uniform(96_000, 101_325);
  let water = water0;
  let filmK = wallK;
  let oil = oil0;
  let atS = 0;
  const trace: { atS: number; pa: number }[] = [];
  let reachedS: number | null = null;
  const share = random();
  let wantedEndS = Number.POSITIVE_INFINITY;
  while (atS < 4 * HORIZON_S) {
    trace.push({ atS, pa: pressure * gain });
    if (pressure * gain <= targetPa) {
      reachedS = atS;
      break;
    }
    if (atS > 7200) wantedEndS = 300 + 5000 * share;
    if (atS > wantedEndS + HORIZON_S) break;
    const step = atS < 600 ? 1 : 5;
    let left = step;
    while (left > 1e-6) {
      const out = throughput(pressure);
      const area = water > 0 ? (water / water0) ** (2 / 3) : 0;
      const evaporating = area * film0 * (saturationPressurePa(filmK) - pressure);
      const fromWater = evaporating > 0 ? Math.min(evaporating, water / left) : 0;
      const fromOil = oil > 0 ? Math.max(0, (oil / oilS) * (1 - pressure / oilPa)) : 0;
      const inflow = leak + walls * (1 + atS / 60) ** -power + fromOil + fromWater;
      const rate = (inflow - out) / volumeM3;
      const stiff = (out / pressure + area * film0) / volumeM3;
      const h = Math.min(left, 0.1 / stiff, water > 0 ? (0.05 * heatCapacity) / (1 + warming) : 9);
      pressure = Math.max(0.05, pressure + rate * h);
      filmK += ((warming * (wallK - filmK) - fromWater * HEAT_J_PER_PA_M3) / heatCapacity) * h;
      filmK = Math.max(filmK, 220);
      water = Math.max(0, water - fromWater * h);
      oil -= fromOil * h;
      left -= h;
    }
    atS += step;
  }
  const endS = trace.at(-1)!.atS;
  let cutS: number;
  // Sometimes by the clock, sometimes by how far the pressure still is from the target.
  if (reachedS === null) cutS = Math.min(300 + 5000 * share, endS);
  else if (random() < 0.5) cutS = endS * (0.2 + 0.75 * share);
  else {
    const level = targetPa * 40 ** share * 1.15;
    cutS = trace.find(({ pa }) => pa < level)!.atS;
  }
  const everyS = pick([1, 2, 5, 5, 10, 20, 60].filter((s) => s === 1 || s < cutS / 8));
  const readings: PulldownReading[] = [];
  let nextS = 0;
  for (const { atS: at, pa } of trace) {
    if (at > cutS && readings.length >= 6) break;
    if (at < nextS) continue;
    nextS = at + everyS;
    const seen = pa * Math.exp(noise * gaussian());
    const step = resolutionPa(seen);
    readings.push({ atS: at, pressureAbsPa: Math.min(mostPa, 101_325, Math.round(seen / step) * step) });
  }
  const lastS = readings.at(-1)!.atS;
  const etaS = reachedS === null ? null : Math.max(0, reachedS - lastS);
  return {
    cause,
    trueEtaS: etaS !== null && etaS > HORIZON_S ? null : etaS,
    record: {
      internalVolumeM3: volumeM3,
      wallTemperatureK: wallK,
      pump: { speedM3PerS: plateM3PerS, ultimateAbsPa: ultimatePa },
      valveCoresRemoved: cores,
      hoses,
      gauge: { location: "system", resolutionPa: micronToPa(finest), accuracyFraction: 0.08 },
      targetAbsPa: targetPa,
      readings,
    } satisfies PulldownRecord,
  };
}
