/**
 * A second circuit and a second gauge, unlike the first on purpose: closed forms instead of integration, gas leaving
 * by diffusion (stretched exponential), logarithms and two separate plateaus, noise that remembers, noise in
 * proportion, readings kept to significant digits, strays in bursts, uneven sampling, gas that lags the coil.
 */
import type { Condition, HoldCase } from "./hold-case";
import { type Draw, drawFrom } from "./random";

interface Curve {
  startMicron: number;
  parts: ((atS: number) => number)[];
  leakMicronPerMin: number;
  leakFromS: number;
  pulls: ((atS: number, micron: number) => number)[];
}

interface Stage {
  draw: Draw;
  holdS: number;
  target: number;
  limit: number;
  allowed: number;
  untilS: number;
  curve: Curve;
  warming: (atS: number) => number;
  seesTemperature: boolean;
  fewPoints: number | null;
  burstEvery: number;
  frozenFromS: number;
  location: "system" | "pump";
  strays: boolean;
}

interface Plot {
  readonly condition: Condition;
  readonly plain?: boolean;
  readonly unseen?: boolean;
  readonly faint?: boolean;
  readonly set: (stage: Stage) => void;
}

const stretched = (micron: number, tauS: number, power: number) => (s: number) =>
  micron * (1 - Math.exp(-((s / tauS) ** power)));
const logarithm = (micron: number, fromS: number) => (s: number) => micron * Math.log1p(s / fromS);
const step = (micron: number, atS: number, widthS: number) => (s: number) =>
  micron * (1 / (1 + Math.exp((atS - s) / widthS)) - 1 / (1 + Math.exp(atS / widthS)));

const room = ({ limit, curve }: Stage) => limit - curve.startMicron;

const PLOTS: Readonly<Record<string, Plot>> = {
  "nothing much": { condition: "sound", plain: true, set: () => {} },
  "diffusion out of oil": {
    condition: "sound",
    plain: true,
    set: (stage) => {
      const { draw, curve, holdS } = stage;
      curve.parts.push(
        stretched(room(stage) * draw.uniform(0.1, 0.5), holdS * draw.uniform(0.05, 0.15), draw.uniform(0.6, 0.9)),
      );
    },
  },
  "logarithmic surfaces": {
    condition: "sound",
    plain: true,
    set: (stage) => {
      const { draw, curve, allowed, holdS } = stage;
      const fromS = draw.uniform(15, 90);
      const roomMicron = (0.6 * room(stage)) / Math.log1p(holdS / fromS);
      const micron = Math.min(draw.uniform(0.1, 0.4) * allowed * (holdS / 60), roomMicron);
      curve.parts.push(logarithm(micron, fromS));
    },
  },
  "two plateaus": {
    condition: "sound",
    set: (stage) => {
      const { draw, curve, holdS } = stage;
      curve.parts.push(stretched(room(stage) * 0.2, holdS * 0.06, 1));
      curve.parts.push(step(room(stage) * draw.uniform(0.1, 0.3), holdS * draw.uniform(0.25, 0.45), holdS * 0.03));
    },
  },
  "a leak nobody minds": {
    condition: "sound",
    plain: true,
    set: (stage) => void Object.assign(stage.curve, { leakMicronPerMin: stage.allowed * stage.draw.uniform(0, 0.3) }),
  },
  "bursts of nonsense": { condition: "sound", set: (stage) => void Object.assign(stage, { burstEvery: 40 }) },
  "six lines in a notebook": {
    condition: "sound",
    set: (stage) => void Object.assign(stage, { fewPoints: 6, allowed: 10 }),
  },
  "coil in the sun": {
    condition: "sound",
    set: (stage) => {
      const degrees = stage.draw.uniform(-3, 6);
      Object.assign(stage, { warming: (s: number) => degrees * (1 - Math.exp(-s / 700)), seesTemperature: true });
    },
  },
  "steady leak": { condition: "leaking", plain: true, set: (stage) => leakBetween(stage, 25, 600) },
  "leak over diffusion": {
    condition: "leaking",
    set: (stage) => {
      leakBetween(stage, 25, 400);
      stage.curve.parts.push(stretched(room(stage) * 0.3, stage.holdS * 0.08, 0.8));
    },
  },
  "leak with nonsense": {
    condition: "leaking",
    set: (stage) => {
      leakBetween(stage, 25, 300);
      stage.burstEvery = 50;
    },
  },
  "leak opens late": {
    condition: "leaking",
    set: (stage) => {
      leakBetween(stage, 30, 300);
      stage.curve.leakFromS = stage.holdS * stage.draw.uniform(0.25, 0.6);
    },
  },
  "leak just above": {
    condition: "leaking",
    faint: true,
    set: (stage) => leakBetween(stage, 1.3 * stage.allowed, 3 * stage.allowed),
  },
  "leak while it cools": {
    condition: "leaking",
    faint: true,
    set: (stage) => {
      leakBetween(stage, 1.3 * stage.allowed, 3 * stage.allowed);
      const degrees = -stage.draw.uniform(4, 12);
      Object.assign(stage, { warming: (s: number) => degrees * (1 - Math.exp(-s / 600)) });
      stage.seesTemperature = stage.draw.chance(0.7);
    },
  },
  "soaked oil": {
    condition: "wet",
    set: (stage) => {
      const { draw, curve, limit, holdS } = stage;
      const micron = limit * draw.uniform(1.3, 4) - curve.startMicron;
      curve.parts.push(stretched(micron, holdS * draw.uniform(0.1, 0.5), draw.uniform(0.75, 1)));
    },
  },
  "slow and still under": {
    condition: "wet",
    faint: true,
    set: (stage) => {
      const { draw, curve, limit, holdS } = stage;
      const micron = limit * draw.uniform(1.15, 2) - curve.startMicron;
      curve.parts.push(stretched(micron, holdS * draw.uniform(0.8, 2.5), draw.uniform(0.8, 1)));
    },
  },
  "soaked and leaking": {
    condition: "wet-and-leaking",
    set: (stage) => {
      const { draw, curve, limit, holdS } = stage;
      curve.parts.push(
        stretched(limit * draw.uniform(1.3, 3), holdS * draw.uniform(0.05, 0.15), draw.uniform(0.85, 1)),
      );
      leakBetween(stage, 30, 300);
    },
  },
  "broken off": {
    condition: "not-provable",
    set: (stage) => void Object.assign(stage, { untilS: stage.holdS * stage.draw.uniform(0.1, 0.97) }),
  },
  "pump still drawing": {
    condition: "not-provable",
    unseen: true,
    set: (stage) => {
      const { draw, curve } = stage;
      const [tauS, floor] = [draw.logUniform(30, 900), draw.uniform(0.2, 0.6)];
      curve.pulls.push((s, micron) => micron * (floor + (1 - floor) * Math.exp(-s / tauS)));
    },
  },
  "pump opened again": {
    condition: "not-provable",
    unseen: true,
    set: (stage) => {
      const atS = stage.holdS * stage.draw.uniform(0.3, 0.8);
      const left = stage.draw.uniform(0.2, 0.7);
      leakBetween(stage, 5, 60);
      stage.curve.pulls.push((s, micron) =>
        s < atS ? micron : micron * (left + (1 - left) * Math.exp(-(s - atS) / 20)),
      );
    },
  },
  "frozen display": {
    condition: "not-provable",
    unseen: true,
    set: (stage) => {
      leakBetween(stage, 5, 60);
      stage.frozenFromS = stage.holdS * stage.draw.uniform(0, 0.6);
    },
  },
  "gauge on the hose": {
    condition: "not-provable",
    unseen: true,
    set: (stage) => void Object.assign(stage, { location: "pump" }),
  },
  "isolated too early": {
    condition: "not-provable",
    set: (stage) => void Object.assign(stage.curve, { startMicron: stage.target * stage.draw.uniform(1.08, 1.4) }),
  },
};

export const OTHER_KIND_NAMES = Object.keys(PLOTS);

function leakBetween({ curve, draw }: Stage, lowest: number, highest: number): void {
  curve.leakMicronPerMin = draw.logUniform(lowest, highest);
}

export function simulateOtherHold(kindName: string, seed: number): HoldCase {
  const plot = PLOTS[kindName]!;
  const draw = drawFrom(seed * 577 + OTHER_KIND_NAMES.indexOf(kindName) * 104_729 + 5);
  const holdS = draw.pick([600, 600, 900, 1200, 1800, 3600]);
  const target = draw.pick([250, 500, 500, 750, 1500]);
  const stage: Stage = {
    draw,
    holdS,
    target,
    limit: target * draw.uniform(1.5, 2),
    allowed: holdS >= 1800 ? draw.uniform(2, 10) : draw.uniform(5, 10),
    untilS: holdS * draw.uniform(1.01, 1.2),
    curve: {
      startMicron: target * draw.uniform(0.3, 0.9),
      parts: [stretched(draw.uniform(5, 40), draw.uniform(20, 120), 0.9)],
      leakMicronPerMin: 0,
      leakFromS: 0,
      pulls: [],
    },
    warming: () => 0,
    seesTemperature: false,
    fewPoints: null,
    burstEvery: 0,
    frozenFromS: Number.POSITIVE_INFINITY,
    location: "system",
    strays: draw.chance(0.3),
  };
  plot.set(stage);
  const wallC = draw.uniform(8, 32);
  const everyS = draw.pick([1, 2, 5, 15, 30]);
  const times = sampleTimes(stage, everyS);
  return {
    kind: kindName,
    seed,
    condition: plot.condition,
    leakMicronPerMin: plot.unseen ? null : stage.curve.leakMicronPerMin,
    shown: plot.condition !== "sound" && plot.condition !== "not-provable" && plot.faint !== true,
    ordinary: plot.plain === true && holdS <= 900 && everyS <= 5,
    wire: {
      id: `${kindName} ${seed}`,
      internalVolumeL: draw.logUniform(1, 60),
      wallTemperatureC: wallC,
      refrigerant: draw.pick(["R-410A", "R-454B", "R-22"]),
      ...readAll(stage, times, wallC),
      criteria: {
        targetMicron: target,
        holdMinutes: holdS / 60,
        maxFinalMicron: stage.limit,
        maxSteadyRiseMicronPerMin: stage.allowed,
      },
    },
  };
}

function sampleTimes({ fewPoints, holdS, untilS, draw }: Stage, everyS: number): number[] {
  if (fewPoints) return Array.from({ length: fewPoints }, (_, index) => Math.round((index * holdS) / (fewPoints - 1)));
  const times: number[] = [];
  for (let s = 0; s < untilS; s += everyS * draw.uniform(0.85, 1.15)) times.push(Math.round(s * 10) / 10);
  times.push(Math.max(untilS, times[times.length - 1]!));
  return times;
}

function readAll(stage: Stage, times: readonly number[], wallC: number) {
  const { draw, curve } = stage;
  const gain = 1 + draw.uniform(-0.03, 0.03);
  const share = draw.logUniform(0.0005, 0.004);
  const memory = draw.pick([0, 0, 0.5, 0.8]);
  const digits = draw.pick([3, 3, 4]);
  let noise = draw.normal();
  let shown = 0;
  let burst = 0;
  const readings = times.map((s) => {
    let micron = curve.startMicron;
    for (const part of curve.parts) micron += part(s);
    micron += (curve.leakMicronPerMin / 60) * Math.max(0, s - curve.leakFromS);
    for (const pull of curve.pulls) micron = pull(s, micron);
    const gasWarming = stage.warming(Math.max(0, s - 40));
    micron *= (wallC + 273.15 + gasWarming) / (wallC + 273.15);
    noise = memory * noise + Math.sqrt(1 - memory ** 2) * draw.normal();
    const read = micron * gain * Math.exp(share * noise) + 0.3 * draw.normal();
    if (s < stage.frozenFromS || shown === 0) shown = Math.max(0, Number(read.toPrecision(digits)));
    if (burst > 0) burst -= 1;
    else if (stage.burstEvery > 0 && draw.chance(1 / stage.burstEvery)) burst = draw.pick([1, 2, 3]);
    else if (stage.strays && draw.chance(0.003)) burst = 1;
    const stray = burst > 0 && s > 0 && stage.fewPoints === null;
    const value = stray ? draw.pick([0, 760_000, Math.min(760_000, shown * 10)]) : shown;
    const temperatureC = Math.round((wallC + stage.warming(s)) * 10) / 10;
    return { s, micron: value, ...(stage.seesTemperature && { temperatureC }) };
  });
  return {
    gauge: { location: stage.location, resolutionMicron: digits === 3 ? 1 : 0.1, accuracyPercent: 5 },
    readings,
  };
}
