import { nitrogenDensityMolPerM3, nitrogenPressureAbsPa } from "@/lib/hvac/nitrogen";
import type { PressureTestReading, PressureTestRecord } from "@/lib/hvac/pressure-test/record";

/** Deterministic random numbers in [0, 1): a seed names a record for good. */
export function randomFrom(seed: number): () => number {
  let state = (seed * 0x9e3779b9) >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export interface SimulatedPressureTest {
  readonly record: PressureTestRecord;
  readonly trueLeakPaPerS: number;
  readonly history: { readonly lagS: number; readonly coupling: number; readonly startOffsetK: number };
  readonly fault: "none" | "cylinder-open" | "topped-up" | "over-pressure";
}

/**
 * A nitrogen test with known truth: gas as one body that follows the weather with a lag, in part only.
 * Integrated in small steps with real-gas nitrogen; nothing here is shared with the estimate but the gas itself.
 */
export function simulatePressureTest(seed: number): SimulatedPressureTest {
  const random = randomFrom(seed);
  const uniform = (low: number, high: number) => low + (high - low) * random();
  const logUniform = (low: number, high: number) => low * (high / low) ** random();
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)]!;
  const gaussian = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

  const atmosphericPa = uniform(80e3, 103e3);
  const testGaugePa = uniform(1e6, 4.2e6);
  const startGaugePa = testGaugePa * uniform(1.002, 1.04);
  const holdS = pick([15, 30, 30, 60, 60, 60, 120, 240, 720, 1440]) * 60;
  const everyS = pick([5, 10, 30, 60, 60, 120, 300, 600].filter((s) => holdS / s >= 4 && holdS / s <= 1900));
  const resolutionPa = pick([100, 500, 700, 1000, 3400, 5000, 7000]);
  const noisePa = resolutionPa * uniform(0.1, 0.9);
  const accuracyFraction = pick([0.0025, 0.005, 0.01]);
  const gain = 1 + uniform(-1, 1) * accuracyFraction;
  const temperatureAccuracyK = pick([0.3, 0.5, 1]);
  const thermometerBiasK = uniform(-1, 1) * temperatureAccuracyK;
  const thermometerNoiseK = uniform(0.02, 0.15);

  const lagS = logUniform(120, 3000);
  const coupling = random() < 0.35 ? 1 : uniform(0.5, 1);
  const startOffsetK = random() < 0.25 ? 0 : uniform(-6, 12);
  const startAirK = uniform(268, 311);
  const driftKPerS = (uniform(-3, 3) * (random() < 0.3 ? 0.2 : 1)) / 3600;
  const swingK = random() < 0.5 ? uniform(0.3, 3) : 0;
  const swingS = logUniform(1200, 20_000);
  const swingPhase = uniform(0, 6.28);
  const sunK = random() < 0.4 ? uniform(1, 6) : 0;
  const sunOnS = uniform(-0.3, 1) * holdS;
  const sunForS = logUniform(600, 7200);
  const dayDrift = holdS > 4 * 3600;
  const airAt = (t: number) =>
    startAirK +
    (dayDrift ? 5 * Math.sin((2 * Math.PI * t) / 86_400 + swingPhase) : driftKPerS * t) +
    swingK * (Math.sin((2 * Math.PI * t) / swingS + swingPhase) - Math.sin(swingPhase)) +
    (t > sunOnS && t < sunOnS + sunForS ? sunK * (1 - Math.exp(-(t - sunOnS) / 180)) : 0);

  const allowedPaPerS = (logUniform(1.5, 20) * 1000) / 3600;
  const kind = random();
  const ratio = kind < 0.4 ? 0 : kind < 0.5 ? uniform(0.02, 0.6) : kind < 0.7 ? uniform(1.02, 3) : logUniform(1.5, 40);
  const trueLeakPaPerS = ratio * allowedPaPerS;
  const faultDraw = random();
  const fault =
    faultDraw < 0.04 ? "cylinder-open" : faultDraw < 0.08 ? "topped-up" : faultDraw < 0.1 ? "over-pressure" : "none";
  const flowPower = pick([1, 1, 2]);
  const toppedAtS = uniform(0.2, 0.8) * holdS;
  const toppedPa = startGaugePa * uniform(0.01, 0.06);
  const regulatorPa = (startGaugePa + atmosphericPa) * uniform(0.999, 1.003);

  const startAbsPa = startGaugePa + atmosphericPa;
  let gasK = startAirK + startOffsetK;
  let density = nitrogenDensityMolPerM3(startAbsPa, gasK);
  const molPerPa = (density - nitrogenDensityMolPerM3(startAbsPa - 1e4, gasK)) / 1e4;
  const stepS = Math.min(everyS, 30, lagS / 10);
  const steps = Math.round(everyS / stepS);
  const readings: PressureTestReading[] = [];
  let nowS = 0;
  let topped = false;
  for (let index = 0; index * everyS <= holdS + 1e-6; index++) {
    const pressure = nitrogenPressureAbsPa(density, gasK);
    const shownPa = (pressure - atmosphericPa) * gain + noisePa * gaussian();
    const shownK = airAt(nowS) + thermometerBiasK + thermometerNoiseK * gaussian();
    readings.push({
      atS: nowS,
      gaugePa: Math.round(shownPa / resolutionPa) * resolutionPa,
      temperatureK: Math.round(shownK * 10) / 10,
    });
    for (let step = 0; step < steps; step++) {
      const flow =
        flowPower === 1
          ? pressure / startAbsPa
          : (pressure ** 2 - atmosphericPa ** 2) / (startAbsPa ** 2 - atmosphericPa ** 2);
      density -= trueLeakPaPerS * flow * molPerPa * (everyS / steps);
      const nextS = nowS + everyS / steps;
      const towardsK = startAirK + coupling * (airAt((nowS + nextS) / 2) - startAirK);
      gasK += (towardsK - gasK) * (1 - Math.exp(-everyS / steps / lagS));
      nowS = nextS;
      if (fault === "topped-up" && !topped && nowS > toppedAtS) {
        density += toppedPa * molPerPa;
        topped = true;
      }
      if (fault === "cylinder-open") {
        const gap = regulatorPa - nitrogenPressureAbsPa(density, gasK);
        if (gap > 0) density += gap * molPerPa * (1 - Math.exp(-everyS / steps / 60));
      }
    }
    nowS = (index + 1) * everyS;
  }
  if (random() < 0.08 && readings.length > 12) {
    const at = 3 + Math.floor(random() * (readings.length - 6));
    readings[at] = { ...readings[at]!, gaugePa: pick([0, readings[at]!.gaugePa * 0.1, readings[at]!.gaugePa * 0.7]) };
  }
  const highest = readings.reduce((most, reading) => Math.max(most, reading.gaugePa), 0);
  const record: PressureTestRecord = {
    internalVolumeM3: logUniform(0.002, 0.08),
    atmosphericPa,
    maxTestGaugePa: fault === "over-pressure" ? highest * uniform(0.95, 0.999) : highest * uniform(1.001, 1.2),
    refrigerant: "R-410A",
    gauge: { resolutionPa, accuracyFraction },
    temperatureAccuracyK,
    criteria: { testGaugePa: Math.min(testGaugePa, readings[0]!.gaugePa), holdS, maxLeakPaPerS: allowedPaPerS },
    readings,
  };
  return { record, trueLeakPaPerS: trueLeakPaPerS * gain, history: { lagS, coupling, startOffsetK }, fault };
}
