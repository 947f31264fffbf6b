/**
 * A third simulator, in which law, weather, gauge and log are drawn apart from the kind of hold: powers of time, sums
 * of relaxations, diffusion out of a layer of oil, a film that boils off; no noise at all, uniform, normal or with long
 * tails; displays of 0.1 to 10 micron. It exists to show what the judge presumes that it should not.
 */
import type { Condition, HoldCase } from "./hold-case";
import { type Draw, drawFrom } from "./random";

type Curve = (atS: number) => number;

interface Mix {
  readonly draw: Draw;
  readonly holdS: number;
  readonly roomMicron: number;
  readonly limitMicron: number;
  readonly allowed: number;
  startMicron: number;
  gases: Curve[];
  leakMicronPerMin: number;
  leakFromS: number;
  /** Multiplies the pressure: a pump that draws. */
  drawn: Curve;
  warmingK: Curve;
  seesTemperature: boolean;
  untilS: number;
  times: "every few seconds" | "by hand" | "with a gap";
  spikes: number;
  frozenFromS: number;
  location: "system" | "pump";
}

interface Kind {
  readonly condition: Condition;
  readonly plain?: boolean;
  readonly faint?: boolean;
  readonly unseen?: boolean;
  readonly change: (mix: Mix) => void;
}

const relaxation =
  (micron: number, tauS: number): Curve =>
  (s) =>
    micron * (1 - Math.exp(-s / tauS));

/** Rate falling with a power of time; `micron` is what has come off after `byS`. */
function powerOfTime(micron: number, byS: number, fromS: number, power: number): Curve {
  const integral: Curve = (s) =>
    Math.abs(power - 1) < 1e-6
      ? Math.log1p(s / fromS)
      : ((s + fromS) ** (1 - power) - fromS ** (1 - power)) / (1 - power);
  return (s) => (micron * integral(s)) / integral(byS);
}

/** Gas diffusing out of a layer: the series solution for a slab, falling back on the root of time early on. */
function slab(micron: number, tauS: number): Curve {
  return (s) => {
    let left = 0;
    for (let n = 1; n <= 15; n += 2) left += Math.exp((-n * n * s) / tauS) / (n * n);
    return (
      micron *
      Math.min(1 - (8 / Math.PI ** 2) * left, (4 / Math.PI ** 1.5) * Math.sqrt((s * Math.PI ** 2) / (4 * tauS)))
    );
  };
}

/** A film boils off at a steady rate until patches of it are dry. */
const film =
  (micron: number, overS: number): Curve =>
  (s) =>
    micron * (1 - (1 - Math.min(1, s / overS)) ** 2);

/** Something that comes off and leaves the level where it should end by the end of the hold or soon after. */
function fading({ draw, holdS }: Mix, micron: number): Curve[] {
  const share = draw.uniform(0.3, 0.7);
  switch (draw.pick(["relaxations", "power", "slab"])) {
    case "relaxations":
      return [
        relaxation(micron * share, holdS * draw.uniform(0.03, 0.1)),
        relaxation(micron * (1 - share), holdS * draw.uniform(0.1, 0.22)),
      ];
    case "slab":
      return [slab(micron, holdS * draw.uniform(0.1, 0.25))];
    default:
      return [powerOfTime(micron * 0.5, holdS, draw.uniform(5, 40), draw.uniform(0.9, 1.3))];
  }
}

const tooFastAtEnd = ({ holdS, allowed, gases }: Mix) =>
  gases.reduce((sum, gas) => sum + gas(holdS) - gas(holdS - 60), 0) > 0.4 * allowed;

function soundFade(mix: Mix, lowest: number, highest: number): void {
  const micron = mix.roomMicron * mix.draw.uniform(lowest, highest);
  for (let share = 1; share > 0.05; share *= 0.7) {
    const before = mix.gases;
    mix.gases = [...before, ...fading(mix, micron * share)];
    if (!tooFastAtEnd(mix)) return;
    mix.gases = before;
  }
}

function over(mix: Mix, lowest: number, highest: number, slowest: number): void {
  const level = mix.limitMicron * mix.draw.uniform(lowest, highest) - mix.startMicron;
  const tauS = mix.holdS * slowest;
  mix.gases.push(mix.draw.chance(0.5) ? relaxation(level, tauS) : slab(level, 2 * tauS));
}

function leak(mix: Mix, lowest: number, highest: number): void {
  mix.leakMicronPerMin = mix.draw.logUniform(lowest, highest);
}

/** Clouds: the coil's temperature runs towards one value after another. */
function weather({ draw, holdS }: Mix, mostK: number): Curve {
  const steps = Array.from({ length: 5 }, (_, index) => ({
    fromS: holdS * (index / 5 + draw.uniform(0, 0.1)),
    byK: draw.uniform(-mostK, mostK) / (index + 1),
  }));
  const lagS = draw.uniform(60, 400);
  return (s) => steps.reduce((sum, { fromS, byK }) => sum + byK * (1 - Math.exp(-Math.max(0, s - fromS) / lagS)), 0);
}

const KINDS: Readonly<Record<string, Kind>> = {
  quiet: { condition: "sound", plain: true, change: () => {} },
  "fades by some law": { condition: "sound", plain: true, change: (mix) => soundFade(mix, 0.1, 0.6) },
  "leak within limits": {
    condition: "sound",
    plain: true,
    change: (mix) => {
      mix.leakMicronPerMin = mix.allowed * mix.draw.uniform(0.05, 0.35);
    },
  },
  "film boils off": {
    condition: "sound",
    change: (mix) =>
      void mix.gases.push(film(mix.roomMicron * mix.draw.uniform(0.1, 0.5), mix.holdS * mix.draw.uniform(0.1, 0.45))),
  },
  "weather, seen": {
    condition: "sound",
    change: (mix) => {
      mix.warmingK = weather(mix, 4);
      mix.seesTemperature = true;
    },
  },
  "weather, unseen": { condition: "sound", change: (mix) => void Object.assign(mix, { warmingK: weather(mix, 1.5) }) },
  "heater late": {
    condition: "sound",
    change: (mix) => {
      const fromS = mix.holdS * mix.draw.uniform(0.15, 0.4);
      const gas = relaxation(mix.roomMicron * mix.draw.uniform(0.1, 0.4), mix.holdS * mix.draw.uniform(0.04, 0.1));
      mix.gases.push((s) => gas(Math.max(0, s - fromS)));
    },
  },
  "spikes in the fade": {
    condition: "sound",
    change: (mix) => {
      soundFade(mix, 0.1, 0.5);
      mix.spikes = mix.draw.uniform(0.01, 0.05);
    },
  },
  "written down by hand": {
    condition: "sound",
    change: (mix) => {
      mix.times = "by hand";
      soundFade(mix, 0.1, 0.3);
    },
  },
  "gap in the fade": {
    condition: "sound",
    change: (mix) => {
      mix.times = "with a gap";
      soundFade(mix, 0.1, 0.4);
    },
  },
  "plain leak": { condition: "leaking", plain: true, change: (mix) => leak(mix, 25, 600) },
  "leak under a fade": {
    condition: "leaking",
    change: (mix) => {
      soundFade(mix, 0.2, 0.5);
      leak(mix, 25, 300);
    },
  },
  "leak above limits": {
    condition: "leaking",
    faint: true,
    change: (mix) => leak(mix, 1.25 * mix.allowed, 3 * mix.allowed),
  },
  "leak above limits, fade": {
    condition: "leaking",
    faint: true,
    change: (mix) => {
      soundFade(mix, 0.1, 0.5);
      leak(mix, 1.25 * mix.allowed, 3 * mix.allowed);
    },
  },
  "leak begins": {
    condition: "leaking",
    change: (mix) => {
      leak(mix, 30, 300);
      mix.leakFromS = mix.holdS * mix.draw.uniform(0.2, 0.6);
    },
  },
  "leak begins late": {
    condition: "leaking",
    faint: true,
    change: (mix) => {
      leak(mix, 2 * mix.allowed, 100);
      mix.leakFromS = mix.holdS * mix.draw.uniform(0.6, 0.85);
    },
  },
  "leak and weather": {
    condition: "leaking",
    faint: true,
    change: (mix) => {
      leak(mix, 1.3 * mix.allowed, 4 * mix.allowed);
      mix.warmingK = weather(mix, 4);
      mix.seesTemperature = mix.draw.chance(0.7);
    },
  },
  "leak in the cold": {
    condition: "leaking",
    faint: true,
    change: (mix) => {
      leak(mix, 1.3 * mix.allowed, 3 * mix.allowed);
      const [byK, lagS] = [mix.draw.uniform(3, 14), mix.draw.uniform(200, 1500)];
      mix.warmingK = (s) => -byK * (1 - Math.exp(-s / lagS));
      mix.seesTemperature = mix.draw.chance(0.7);
    },
  },
  "leak and spikes": {
    condition: "leaking",
    change: (mix) => {
      leak(mix, 25, 300);
      mix.spikes = 0.04;
    },
  },
  "leak written down": {
    condition: "leaking",
    change: (mix) => {
      leak(mix, 40, 300);
      mix.times = "by hand";
    },
  },
  "oil full of gas": { condition: "wet", change: (mix) => over(mix, 1.2, 3, mix.draw.uniform(0.1, 0.45)) },
  "still below, going over": {
    condition: "wet",
    faint: true,
    change: (mix) => over(mix, 1.15, 1.8, mix.draw.uniform(0.6, 2)),
  },
  "gas and leak": {
    condition: "wet-and-leaking",
    change: (mix) => {
      over(mix, 1.3, 2.5, mix.draw.uniform(0.05, 0.15));
      leak(mix, 40, 300);
    },
  },
  "cut short": {
    condition: "not-provable",
    change: (mix) => void Object.assign(mix, { untilS: mix.holdS * mix.draw.uniform(0.2, 0.97) }),
  },
  "valve open": {
    condition: "not-provable",
    unseen: true,
    change: (mix) => {
      const [tauS, rest] = [mix.draw.logUniform(30, 900), mix.draw.uniform(0.2, 0.7)];
      mix.drawn = (s) => rest + (1 - rest) * Math.exp(-s / tauS);
    },
  },
  "valve opened again": {
    condition: "not-provable",
    unseen: true,
    change: (mix) => {
      leak(mix, 5, 60);
      const [fromS, rest] = [mix.holdS * mix.draw.uniform(0.3, 0.8), mix.draw.uniform(0.2, 0.7)];
      mix.drawn = (s) => rest + (1 - rest) * Math.exp(-Math.max(0, s - fromS) / 20);
    },
  },
  "display frozen": {
    condition: "not-provable",
    unseen: true,
    change: (mix) => {
      leak(mix, 1.5 * mix.allowed, 60);
      mix.frozenFromS = mix.holdS * mix.draw.uniform(0, 0.6);
    },
  },
  "on the pump's hose": {
    condition: "not-provable",
    unseen: true,
    change: (mix) => void Object.assign(mix, { location: "pump" }),
  },
  "from above the target": {
    condition: "not-provable",
    change: (mix) => void Object.assign(mix, { startMicron: (mix.startMicron / 0.75) * 1.2 }),
  },
};

export const MIXED_KIND_NAMES = Object.keys(KINDS);

export function simulateMixedHold(kindName: string, seed: number): HoldCase {
  const kind = KINDS[kindName]!;
  const draw = drawFrom(seed * 919 + MIXED_KIND_NAMES.indexOf(kindName) * 15_485_863 + 11);
  const holdS = draw.pick([600, 600, 900, 1200, 1800, 3600]);
  const target = draw.pick([250, 500, 500, 1000, 2000]);
  const limitMicron = target * draw.uniform(1.4, 2);
  const startMicron =
    target * (kindName === "from above the target" ? (0.75 / 1.2) * draw.uniform(1.1, 1.3) : draw.uniform(0.3, 0.9));
  const mix: Mix = {
    draw,
    holdS,
    roomMicron: limitMicron - startMicron,
    limitMicron,
    allowed: holdS >= 1800 ? draw.uniform(2, 10) : draw.uniform(5, 10),
    startMicron,
    gases: [relaxation(startMicron * draw.uniform(-0.03, 0.04), draw.uniform(5, 20))],
    leakMicronPerMin: 0,
    leakFromS: 0,
    drawn: () => 1,
    warmingK: () => 0,
    seesTemperature: draw.chance(0.2),
    untilS: holdS * draw.uniform(1, 1.15),
    times: "every few seconds",
    spikes: 0,
    frozenFromS: Number.POSITIVE_INFINITY,
    location: "system",
  };
  const surfaces = powerOfTime(1, holdS, draw.uniform(5, 30), draw.uniform(0.8, 1.2));
  const mostMicron = (0.2 * mix.allowed) / (surfaces(holdS) - surfaces(holdS - 60));
  const surfacesMicron = Math.min(mix.roomMicron * draw.uniform(0.02, 0.08), mostMicron);
  mix.gases.push((s) => surfacesMicron * surfaces(s));
  kind.change(mix);
  const everyS = draw.pick([1, 2, 5, 10]);
  const choice = readMix(mix, everyS, draw.pick([0.1, 1, 1, 5, 10]));
  // a display that shows hardly more than one value cannot be told from one that is stuck
  const read = shownValues(choice) > 3 ? choice : readMix(mix, everyS, 0.1);
  return {
    kind: kindName,
    seed,
    condition: kind.condition,
    leakMicronPerMin: kind.unseen ? null : mix.leakMicronPerMin,
    shown: kind.condition !== "sound" && kind.condition !== "not-provable" && kind.faint !== true,
    ordinary: kind.plain === true && holdS <= 900,
    wire: {
      id: `${kindName} ${seed}`,
      internalVolumeL: draw.logUniform(1, 60),
      wallTemperatureC: 20,
      refrigerant: "R-32",
      ...read,
      criteria: {
        targetMicron: target,
        holdMinutes: holdS / 60,
        maxFinalMicron: limitMicron,
        maxSteadyRiseMicronPerMin: mix.allowed,
      },
    },
  };
}

function shownValues({ readings }: ReturnType<typeof readMix>): number {
  return new Set(readings.map(({ micron }) => micron)).size;
}

function readMix(mix: Mix, everyS: number, wantedMicron: number) {
  const { draw, holdS, startMicron, gases } = mix;
  const gain = 1 + draw.uniform(-0.03, 0.03);
  const wanderPerS = draw.uniform(-0.01, 0.01) / 3600;
  const spread = draw.pick([0, 0, 0.0005, 0.002, 0.004]);
  const noise = draw.pick([
    () => draw.uniform(-1.7, 1.7),
    () => draw.normal(),
    () => draw.normal() * draw.pick([0.5, 0.5, 2]),
  ]);
  // a display whose steps a leak at the limit takes a good part of the hold to climb proves nothing
  const finest = mix.allowed * (holdS / 60);
  const stepMicron = Math.min(wantedMicron, 0.1 * finest > 5 ? 10 : 0.1 * finest > 1 ? 5 : 1);
  const coarsens = draw.chance(0.5) ? [1000, 10_000] : [];
  let shown = 0;
  const readings = timesOf(mix, everyS).map((s) => {
    const evolved = gases.reduce((sum, gas) => sum + gas(s), startMicron);
    const leaked = (mix.leakMicronPerMin / 60) * Math.max(0, s - mix.leakFromS);
    const micron = (evolved + leaked) * mix.drawn(s) * (1 + mix.warmingK(s) / 293.15);
    const read = micron * gain * (1 + wanderPerS * s) * (1 + spread * noise());
    const step = coarsens.reduce(
      (wide, from) => (read >= from && 10 * wide <= 0.15 * finest ? 10 * wide : wide),
      stepMicron,
    );
    if (s < mix.frozenFromS || shown === 0) shown = Math.max(0, Math.round(read / step) * step);
    const value = draw.chance(mix.spikes) ? Math.min(760_000, draw.pick([0, 760_000, 10 * shown])) : shown;
    return {
      s,
      micron: value,
      ...(mix.seesTemperature && { temperatureC: Math.round((20 + mix.warmingK(s)) * 10) / 10 }),
    };
  });
  return { gauge: { location: mix.location, resolutionMicron: stepMicron, accuracyPercent: 5 }, readings };
}

function timesOf({ times, untilS, holdS, draw }: Mix, everyS: number): number[] {
  if (times === "by hand") return [0, 0.25, 0.5, 0.75, 1].map((share) => share * holdS);
  const all = Array.from({ length: Math.floor(untilS / everyS) + 1 }, (_, index) => index * everyS);
  if (times === "every few seconds") return all;
  const fromS = holdS * draw.uniform(0.15, 0.6);
  const toS = fromS + holdS * draw.uniform(0.1, 0.28);
  return all.filter((s) => s < fromS || s > toS);
}
