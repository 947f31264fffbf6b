import { nitrogenDensityMolPerM3, nitrogenPressureAbsPa } from "@/lib/hvac/nitrogen";
import type { PressureTestReading, PressureTestRecord } from "@/lib/hvac/pressure-test/record";
import { randomFrom } from "./simulated-test";

/** What a made test is made of; each kind below overrides some of it. */
interface Circumstances {
  holdS: number;
  everyS: number;
  resolutionPa: number;
  /** Scatter of one reading in steps of the display. */
  noiseSteps: number;
  thermometerStepK: number;
  thermometerNoiseK: number;
  lagS: number;
  coupling: number;
  startOffsetK: number;
  driftKPerH: number;
  bendKPerH2: number;
  swingK: number;
  swingS: number;
  gustK: number;
  /** Sun in K on the air's sensor and the gas alike, coming and going. */
  sunK: number;
  /** Sun in K on the gas alone. */
  unseenSunK: number;
  /** A second part outdoors: share of the gas and how many times slower it is. */
  slowShare: number;
  slowTimes: number;
  cylinder: "shut" | "open" | "topped-up";
  tooHigh: boolean;
}

type Draw = {
  readonly between: (low: number, high: number) => number;
  readonly scaled: (low: number, high: number) => number;
  readonly pick: <T>(items: readonly T[]) => T;
};

/** The kinds of nitrogen test that a contractor's week brings. */
export const KINDS = {
  logged: () => ({}),
  "steady-air": ({ between }) => ({ driftKPerH: between(-0.1, 0.1), swingK: 0, gustK: 0, bendKPerH2: 0 }),
  "warming-morning": ({ between }) => ({ driftKPerH: between(1, 5), bendKPerH2: between(-1, 1) }),
  "cooling-evening": ({ between }) => ({ driftKPerH: between(-5, -1), bendKPerH2: between(-1, 1) }),
  "sun-and-cloud": ({ between }) => ({ sunK: between(1, 8) }),
  "sun-on-coil-alone": ({ between }) => ({ unseenSunK: between(0.3, 4) }),
  "hand-log": ({ pick, scaled }) => ({ everyS: 300, holdS: pick([3300, 3600, 3600, 7200]), lagS: scaled(180, 2700) }),
  "few-readings": ({ pick }) => ({ everyS: pick([600, 900]), holdS: pick([3600, 5400]) }),
  "no-noise": ({ pick }) => ({ noiseSteps: 0, gustK: 0, thermometerNoiseK: 0, resolutionPa: pick([1, 100, 1000]) }),
  "no-noise-flat": ({ pick, between }) => ({
    noiseSteps: 0,
    gustK: 0,
    thermometerNoiseK: 0,
    swingK: 0,
    startOffsetK: 0,
    bendKPerH2: 0,
    driftKPerH: pick([0, 0, between(-2, 2)]),
    resolutionPa: pick([1, 100, 1000, 5000, 10_000]),
  }),
  "coarse-display": ({ pick }) => ({
    resolutionPa: pick([5000, 6895, 10_000, 20_000]),
    noiseSteps: pick([0, 0.1, 0.3]),
  }),
  "fine-display": ({ scaled }) => ({ resolutionPa: 10, noiseSteps: scaled(3, 100) }),
  short: ({ pick }) => ({ holdS: pick([600, 900, 1200]), everyS: pick([5, 10, 20, 30]) }),
  overnight: ({ pick, between }) => ({
    holdS: pick([28_800, 43_200, 86_400]),
    everyS: pick([300, 600, 900]),
    swingK: between(2, 7),
    swingS: 86_400,
    driftKPerH: between(-0.1, 0.1),
    bendKPerH2: 0,
  }),
  "partly-indoors": ({ between }) => ({ coupling: between(0.5, 0.75), driftKPerH: between(-4, 4) }),
  "just-filled": ({ between, pick }) => ({ startOffsetK: pick([1, 1, -1]) * between(5, 12) }),
  "large-coil": ({ between }) => ({ lagS: between(1800, 3300), startOffsetK: between(0, 12) }),
  "rough-thermometer": ({ between, pick }) => ({
    thermometerNoiseK: between(0.1, 0.5),
    thermometerStepK: pick([0.1, 0.5, 1]),
  }),
  "two-lags": ({ between }) => ({ slowShare: between(0.2, 0.5), slowTimes: between(1.5, 4) }),
  "cylinder-open": () => ({ cylinder: "open" as const }),
  "topped-up": () => ({ cylinder: "topped-up" as const }),
  "over-pressure": () => ({ tooHigh: true }),
} satisfies Record<string, (draw: Draw) => Partial<Circumstances>>;

export type Kind = keyof typeof KINDS;
export const KIND_NAMES = Object.keys(KINDS) as Kind[];

export interface TestOfKind {
  readonly record: PressureTestRecord;
  readonly trueLeakPaPerS: number;
  /** Standard deviation in Pa/s of the best estimate from this record by one who knows the laws at work. */
  readonly bestSdPaPerS: number;
  readonly made: Circumstances;
}

/** A nitrogen test of one kind with known truth; the gas is stepped through weather made of simple pieces. */
export function testOfKind(kind: Kind, seed: number): TestOfKind {
  const random = randomFrom(seed * 131 + KIND_NAMES.indexOf(kind) + 7_000_000);
  const between = (low: number, high: number) => low + (high - low) * random();
  const scaled = (low: number, high: number) => low * (high / low) ** random();
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)]!;
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const holdS = pick([1800, 3600, 3600, 7200, 14_400]);
  const made: Circumstances = {
    holdS,
    everyS: pick([10, 30, 60, 60, 120, 300]),
    resolutionPa: pick([100, 500, 1000, 1000, 3447, 5000]),
    noiseSteps: pick([0.05, 0.3, 0.6, 1]),
    thermometerStepK: 0.1,
    thermometerNoiseK: pick([0, 0.03, 0.1]),
    lagS: scaled(150, 3000),
    coupling: pick([1, between(0.5, 1), between(0.5, 1)]),
    startOffsetK: pick([0, between(-3, 3), between(-4, 12), between(2, 12)]),
    driftKPerH: between(-2.5, 2.5),
    bendKPerH2: between(-0.5, 0.5),
    swingK: pick([0, between(0.1, 1.5)]),
    swingS: scaled(1200, 10_000),
    gustK: pick([0, 0.1, 0.3]),
    sunK: 0,
    unseenSunK: 0,
    slowShare: 0,
    slowTimes: 1,
    cylinder: "shut",
    tooHigh: false,
    ...KINDS[kind]({ between, scaled, pick }),
  };
  const allowedPaPerS = (scaled(2, 20) * 1000) / 3600;
  const ratio = pick([0, 0, between(0, 0.8), between(1.03, 3), scaled(1.1, 20)]);
  const trueLeakPaPerS = ratio * allowedPaPerS;
  const power = pick([0, 1, 2]);
  const atmosphericPa = between(85e3, 103e3);
  const startAbsPa = between(1.1e6, 4.2e6) + atmosphericPa;

  const startAirK = between(270, 308);
  const weather = weatherOf(made, random, between);
  const airAt = (t: number) => startAirK + weather.air(t);
  const bodies = [
    { share: 1 - made.slowShare, lagS: made.lagS },
    { share: made.slowShare, lagS: made.lagS * made.slowTimes },
  ].map((body) => ({ ...body, gasK: startAirK + made.startOffsetK }));
  const meanK = () => 1 / bodies.reduce((sum, { share, gasK }) => sum + share / gasK, 0);
  let density = nitrogenDensityMolPerM3(startAbsPa, meanK());
  const molPerPa = (density - nitrogenDensityMolPerM3(startAbsPa - 1e4, meanK())) / 1e4;
  const regulatorPa = startAbsPa * between(0.999, 1.002);
  const toppedAtS = between(0.2, 0.8) * made.holdS;
  const toppedPa = startAbsPa * scaled(0.008, 0.06);
  const noisePa = made.noiseSteps * made.resolutionPa;
  const round = (value: number, step: number) => (step > 0 ? Math.round(value / step) * step : value);
  const readings: PressureTestReading[] = [];
  const stepS = Math.min(15, made.everyS);
  let topped = false;
  let pressurePa = startAbsPa;
  for (let atS = 0; atS <= made.holdS + 1e-6; atS += stepS) {
    pressurePa = nitrogenPressureAbsPa(density, meanK());
    if (Math.abs(atS / made.everyS - Math.round(atS / made.everyS)) < 1e-6)
      readings.push({
        atS,
        gaugePa: round(pressurePa - atmosphericPa + noisePa * normal(), made.resolutionPa),
        temperatureK: 273.15 + round(airAt(atS) - 273.15 + made.thermometerNoiseK * normal(), made.thermometerStepK),
      });
    const share =
      power === 2
        ? (pressurePa ** 2 - atmosphericPa ** 2) / (startAbsPa ** 2 - atmosphericPa ** 2)
        : (pressurePa / startAbsPa) ** power;
    density -= trueLeakPaPerS * molPerPa * share * stepS;
    const middle = atS + stepS / 2;
    const target = startAirK + made.coupling * weather.air(middle) + weather.unseen(middle);
    for (const body of bodies) body.gasK += (target - body.gasK) * -Math.expm1(-stepS / body.lagS);
    if (made.cylinder === "topped-up" && !topped && middle > toppedAtS) {
      density += toppedPa * molPerPa;
      topped = true;
    }
    if (made.cylinder === "open")
      density += Math.max(0, regulatorPa - pressurePa) * molPerPa * -Math.expm1(-stepS / 40);
  }
  const highest = Math.max(...readings.map(({ gaugePa }) => gaugePa));
  const record: PressureTestRecord = {
    internalVolumeM3: scaled(0.002, 0.08),
    atmosphericPa,
    maxTestGaugePa: made.tooHigh ? highest * between(0.95, 0.9995) : highest * between(1.0005, 1.2),
    refrigerant: "R-410A",
    gauge: { resolutionPa: made.resolutionPa, accuracyFraction: 0.005 },
    temperatureAccuracyK: 0.5,
    criteria: { testGaugePa: readings[0]!.gaugePa * between(0.9, 1), holdS: made.holdS, maxLeakPaPerS: allowedPaPerS },
    readings,
  };
  const paPerK = startAbsPa / startAirK;
  // The gauge may be wrong by its accuracy, which nobody can tell from the record.
  const gainSd = (record.gauge.accuracyFraction / Math.sqrt(3)) * trueLeakPaPerS;
  const bestSdPaPerS = Math.hypot(bestSd(made, readings, weather.air, paPerK, noisePa), gainSd);
  return { record, trueLeakPaPerS, bestSdPaPerS, made };
}

function weatherOf(made: Circumstances, random: () => number, between: (a: number, b: number) => number) {
  const phase = between(0, 6.28);
  const clouds: { on: number; off: number }[] = [];
  for (let t = between(-0.5, 0.5) * made.holdS; t < made.holdS; ) {
    const on = t;
    const off = on + between(300, 3600);
    clouds.push({ on, off });
    t = off + between(300, 3600);
  }
  const sun = (t: number) => {
    let level = 0;
    for (const { on, off } of clouds) {
      if (t > on) level += 1 - Math.exp(-(t - on) / 120);
      if (t > off) level -= 1 - Math.exp(-(t - off) / 120);
    }
    return level;
  };
  const gusts = Array.from({ length: 6 }, (_, index) => ({
    perS: (2 * Math.PI) / (180 * 1.9 ** index * between(0.8, 1.25)),
    phase: 6.28 * random(),
  }));
  const raw = (t: number) => {
    const hours = t / 3600;
    return (
      made.driftKPerH * hours +
      made.bendKPerH2 * hours ** 2 +
      made.swingK * Math.sin((2 * Math.PI * t) / made.swingS + phase) +
      made.sunK * sun(t) +
      made.gustK * gusts.reduce((sum, gust) => sum + Math.sin(gust.perS * t + gust.phase) / 2.4, 0)
    );
  };
  const first = raw(0);
  return { air: (t: number) => raw(t) - first, unseen: (t: number) => made.unseenSunK * (sun(t) - sun(0)) };
}

/**
 * Spread of the leak for one who knows the true weather, the noise and that the gas is one body with a lag: least squares
 * at each lag, averaged over the lags by how well they fit. The thermometer's own error is noise for him too.
 */
function bestSd(
  made: Circumstances,
  readings: readonly PressureTestReading[],
  air: (t: number) => number,
  paPerK: number,
  noisePa: number,
): number {
  const scatterK = Math.hypot(made.thermometerNoiseK, made.thermometerStepK / Math.sqrt(12));
  // A display that stands still between its steps says the same thing again and again.
  const crossings = readings.filter(
    ({ gaugePa }, index) => index > 0 && gaugePa !== readings[index - 1]!.gaugePa,
  ).length;
  const repeats = Math.max(1, readings.length / (3 * (crossings + 1)));
  const whitePa = Math.hypot(noisePa, made.resolutionPa * Math.sqrt(repeats / 12));
  const steps = Array.from({ length: 22 }, (_, index) => 0.002 * 1.42 ** index);
  const logLags = [...steps.map((step) => -step), 0, ...steps]
    .map((step) => Math.log(made.lagS) + step)
    .filter((logLag) => logLag > Math.log(60) && logLag < Math.log(4800))
    .sort((a, b) => a - b);
  const fits = logLags.map((logLag, index) => {
    const lagS = Math.exp(logLag);
    const kept = Math.exp(-made.everyS / lagS);
    const slowPa = made.coupling * paPerK * scatterK * Math.sqrt((1 - kept) / (1 + kept));
    const followed = followedBy(air, readings, lagS, Math.min(15, made.everyS));
    const columns = [
      readings.map(({ gaugePa }) => gaugePa - readings[0]!.gaugePa),
      readings.map(() => 1e4),
      readings.map(({ atS }) => paPerK * Math.exp(-atS / lagS)),
      followed.map((kelvin) => paPerK * kelvin),
      readings.map(({ atS }) => -atS),
    ];
    const { mean, sd, logFit } = leakAtLag(whitened(columns, kept, slowPa, whitePa));
    const width = (logLags[index + 1] ?? logLag) - (logLags[index - 1] ?? logLag);
    return { mean, sd, logWeight: logFit + Math.log(width) };
  });
  const most = Math.max(...fits.map(({ logWeight }) => logWeight));
  let total = 0;
  let sum = 0;
  let squares = 0;
  for (const { mean, sd, logWeight } of fits) {
    const weight = Math.exp(logWeight - most);
    total += weight;
    sum += weight * mean;
    squares += weight * (mean ** 2 + sd ** 2);
  }
  return Math.sqrt(squares / total - (sum / total) ** 2);
}

function followedBy(air: (t: number) => number, readings: readonly PressureTestReading[], lagS: number, stepS: number) {
  const out: number[] = [];
  let gas = 0;
  for (let atS = 0; out.length < readings.length; atS += stepS) {
    if (readings[out.length]!.atS <= atS + 1e-6) out.push(gas);
    gas += (air(atS + stepS / 2) - gas) * -Math.expm1(-stepS / lagS);
  }
  return out;
}

/** The first column is what was read; then level, start in K about 0, coupling about 0.77, and the leak, which is free. */
function leakAtLag([read, ...causes]: readonly number[][]): { mean: number; sd: number; logFit: number } {
  const prior = [
    [0, 1e4],
    [0, 5],
    [0.77, 0.16],
    [0, 1e4],
  ] as const;
  const n = causes.length;
  const dot = (x: readonly number[], y: readonly number[]) => x.reduce((sum, value, k) => sum + value * y[k]!, 0);
  const a = causes.map((x, i) => [
    ...causes.map((y, j) => dot(x, y) + (i === j ? prior[i]![1] ** -2 : 0)),
    dot(x, read!) + prior[i]![0] * prior[i]![1] ** -2,
  ]);
  let logFit = -0.5 * dot(read!, read!);
  for (let pivot = 0; pivot < n; pivot++) {
    const top = a[pivot]!;
    logFit += 0.5 * (top[n]! ** 2 / top[pivot]! - Math.log(top[pivot]!));
    for (const below of a.slice(pivot + 1)) {
      const factor = below[pivot]! / top[pivot]!;
      for (let column = pivot; column <= n; column++) below[column]! -= factor * top[column]!;
    }
  }
  const last = a[n - 1]!;
  return { mean: last[n]! / last[n - 1]!, sd: 1 / Math.sqrt(last[n - 1]!), logFit };
}

function whitened(columns: readonly number[][], kept: number, slowPa: number, noisePa: number): number[][] {
  return columns.map((column) => {
    let variance = slowPa ** 2;
    let state = 0;
    return column.map((value, index) => {
      if (index > 0) {
        variance = kept ** 2 * variance + slowPa ** 2 * (1 - kept ** 2);
        state *= kept;
      }
      const total = variance + noisePa ** 2;
      const surprise = value - state;
      state += (variance / total) * surprise;
      variance *= noisePa ** 2 / total;
      return surprise / Math.sqrt(total);
    });
  });
}
