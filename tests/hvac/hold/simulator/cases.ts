import { integrate, type Physics, waterMicron } from "./circuit";
import { type GaugeHabits, readGauge } from "./gauge";
import type { Condition, HoldCase } from "./hold-case";
import { type Draw, drawFrom } from "./random";

interface Criteria {
  targetMicron: number;
  holdMinutes: number;
  maxFinalMicron: number;
  maxSteadyRiseMicronPerMin: number;
}

/** What a kind of hold changes in an otherwise sound, plainly logged one. */
interface Scene {
  draw: Draw;
  criteria: Criteria;
  physics: Physics;
  habits: GaugeHabits;
  untilS: number;
  everyS: number;
  times: readonly number[] | null;
  temperatures: boolean;
  location: "system" | "pump";
}

interface Kind {
  readonly condition: Condition;
  readonly ordinary?: boolean;
  readonly hidden?: boolean;
  readonly faint?: boolean;
  readonly change: (scene: Scene) => void;
}

const CRITERIA: readonly Omit<Criteria, "maxSteadyRiseMicronPerMin">[] = [
  { targetMicron: 500, holdMinutes: 10, maxFinalMicron: 1000 },
  { targetMicron: 500, holdMinutes: 15, maxFinalMicron: 700 },
  { targetMicron: 250, holdMinutes: 15, maxFinalMicron: 500 },
  { targetMicron: 500, holdMinutes: 20, maxFinalMicron: 800 },
  { targetMicron: 1000, holdMinutes: 30, maxFinalMicron: 1500 },
  { targetMicron: 500, holdMinutes: 60, maxFinalMicron: 900 },
  { targetMicron: 2025, holdMinutes: 20, maxFinalMicron: 2600 },
];

const seconds = ({ criteria }: Scene) => criteria.holdMinutes * 60;
const room = ({ criteria, physics }: Scene) => criteria.maxFinalMicron - physics.startMicron;

function warmUp(scene: Scene, degrees: number, lagS: number): void {
  scene.physics.warmingC = (s) => degrees * (1 - Math.exp(-s / lagS));
}

function leakOver(scene: Scene, lowest: number, highest: number): void {
  scene.physics.leakMicronPerMin = scene.draw.logUniform(lowest, highest);
}

function overLimit(scene: Scene): void {
  const { draw, physics, criteria } = scene;
  const level = criteria.maxFinalMicron * draw.uniform(1.2, 3);
  const tauS = seconds(scene) * draw.uniform(0.15, 0.7);
  physics.oil = [{ micron: level - physics.startMicron, tauS, fromS: 0 }];
}

const KINDS: Readonly<Record<string, Kind>> = {
  dry: { condition: "sound", ordinary: true, change: () => {} },
  "oil fades": {
    condition: "sound",
    ordinary: true,
    change: (scene) => {
      const tauS = seconds(scene) * scene.draw.uniform(0.08, 0.25);
      scene.physics.oil = [{ micron: room(scene) * scene.draw.uniform(0.2, 0.7), tauS, fromS: 0 }];
    },
  },
  "surfaces give off gas": {
    condition: "sound",
    ordinary: true,
    change: (scene) => {
      scene.physics.surfaceFromS = scene.draw.logUniform(10, 120);
      scene.physics.surfaceMicron = room(scene) * scene.draw.uniform(0.02, 0.06);
    },
  },
  "tolerable leak": {
    condition: "sound",
    ordinary: true,
    change: (scene) => {
      scene.physics.leakMicronPerMin = scene.criteria.maxSteadyRiseMicronPerMin * scene.draw.uniform(0.05, 0.35);
    },
  },
  "trace of water dries": {
    condition: "sound",
    change: (scene) => {
      scene.physics.filmMicron = room(scene) * scene.draw.uniform(0.2, 0.6);
      const wantedS = seconds(scene) * scene.draw.uniform(0.1, 0.5);
      scene.physics.filmPerS = scene.physics.filmMicron / wantedS / waterMicron(scene.physics.wallC);
    },
  },
  "radio strays": {
    condition: "sound",
    change: ({ habits, draw }) => {
      habits.strayShare = draw.uniform(0.01, 0.05);
    },
  },
  "coarse gauge": {
    condition: "sound",
    change: (scene) => {
      scene.habits.resolutionMicron = scene.draw.pick([5, 10, 20]);
      scene.physics.oil = [{ micron: room(scene) * 0.4, tauS: seconds(scene) * 0.2, fromS: 0 }];
      scene.criteria.maxSteadyRiseMicronPerMin = 10;
      // steps a leak at the limit needs most of the hold to climb prove nothing, however sound the circuit
      const provable = 10 * scene.habits.resolutionMicron <= 0.25 * 10 * scene.criteria.holdMinutes;
      if (!provable) scene.habits.coarserFrom = [];
    },
  },
  gaps: {
    condition: "sound",
    change: (scene) => {
      const from = scene.draw.uniform(0.2, 0.6) * scene.untilS;
      const width = scene.draw.uniform(0.1, 0.3) * scene.untilS;
      scene.times = everySecond(scene).filter((s) => s < from || s > from + width);
    },
  },
  "hand log": {
    condition: "sound",
    change: (scene) => {
      scene.times = [0, 1, 2, 3, 4].map((step) => Math.round((step * seconds(scene)) / 4));
      scene.physics.oil = [{ micron: room(scene) * 0.3, tauS: seconds(scene) * 0.12, fromS: 0 }];
      scene.criteria.maxSteadyRiseMicronPerMin = 10;
    },
  },
  "sun and cloud, seen": {
    condition: "sound",
    change: (scene) => {
      sunAndCloud(scene);
      scene.temperatures = true;
    },
  },
  "sun and cloud, not seen": { condition: "sound", change: sunAndCloud },
  "coil warms up": {
    condition: "sound",
    change: (scene) => {
      warmUp(scene, scene.draw.uniform(-4, 6), scene.draw.uniform(200, 1500));
      scene.temperatures = true;
    },
  },
  "crankcase heater": {
    condition: "sound",
    change: (scene) => {
      const fromS = seconds(scene) * scene.draw.uniform(0.15, 0.35);
      const tauS = seconds(scene) * scene.draw.uniform(0.04, 0.1);
      scene.physics.oil = [{ micron: room(scene) * scene.draw.uniform(0.15, 0.5), tauS, fromS }];
    },
  },
  leak: { condition: "leaking", ordinary: true, change: (scene) => leakOver(scene, 25, 600) },
  "leak and fading oil": {
    condition: "leaking",
    change: (scene) => {
      leakOver(scene, 25, 300);
      scene.physics.oil = [{ micron: room(scene) * 0.4, tauS: seconds(scene) * 0.15, fromS: 0 }];
    },
  },
  "small leak": {
    faint: true,
    condition: "leaking",
    change: (scene) => {
      const { maxSteadyRiseMicronPerMin: allowed } = scene.criteria;
      leakOver(scene, 1.5 * allowed, 4 * allowed);
    },
  },
  "late leak": {
    condition: "leaking",
    change: (scene) => {
      leakOver(scene, 25, 200);
      scene.physics.leakFromS = seconds(scene) * scene.draw.uniform(0.3, 0.6);
    },
  },
  "leak hidden by cooling": {
    faint: true,
    condition: "leaking",
    change: (scene) => {
      const { maxSteadyRiseMicronPerMin: allowed } = scene.criteria;
      leakOver(scene, 1.5 * allowed, 3 * allowed);
      warmUp(scene, -scene.draw.uniform(5, 15), scene.draw.uniform(300, 1200));
      scene.temperatures = scene.draw.chance(0.7);
    },
  },
  "leak among strays": {
    condition: "leaking",
    change: (scene) => {
      leakOver(scene, 25, 300);
      scene.habits.strayShare = 0.04;
    },
  },
  "leak in a hand log": {
    condition: "leaking",
    change: (scene) => {
      leakOver(scene, 30, 300);
      scene.times = [0, 1, 2, 3, 4].map((step) => Math.round((step * seconds(scene)) / 4));
    },
  },
  "liquid water": {
    condition: "wet",
    change: (scene) => {
      scene.physics.filmMicron = 1e6;
      scene.physics.filmPerS = 1 / (seconds(scene) * scene.draw.uniform(0.05, 0.5));
    },
  },
  ice: {
    condition: "wet",
    change: (scene) => {
      scene.physics.filmMicron = 1e6;
      scene.physics.filmPerS = 1 / (seconds(scene) * scene.draw.uniform(0.05, 0.4));
      const lowestC = scene.criteria.maxFinalMicron > 2000 ? -5 : scene.criteria.maxFinalMicron > 1200 ? -8 : -12;
      scene.physics.wallC = scene.draw.uniform(lowestC, -1);
    },
  },
  "oil over the limit": { condition: "wet", change: overLimit },
  "under the limit, on its way over": {
    faint: true,
    condition: "wet",
    change: (scene) => {
      const { draw, physics, criteria } = scene;
      const level = criteria.maxFinalMicron * draw.uniform(1.15, 1.6);
      physics.oil = [{ micron: level - physics.startMicron, tauS: seconds(scene) * draw.uniform(0.8, 2), fromS: 0 }];
    },
  },
  "wet and leaking": {
    condition: "wet-and-leaking",
    change: (scene) => {
      overLimit(scene);
      scene.physics.oil = scene.physics.oil.map((oil) => ({
        ...oil,
        tauS: seconds(scene) * scene.draw.uniform(0.06, 0.2),
      }));
      leakOver(scene, 25, 300);
    },
  },
  "too short": {
    condition: "not-provable",
    change: (scene) => {
      scene.untilS = seconds(scene) * scene.draw.uniform(0.2, 0.95);
    },
  },
  "not isolated": {
    condition: "not-provable",
    hidden: true,
    change: ({ draw, physics }) => {
      const perS = draw.logUniform(0.003, 0.05);
      // what flows in stays below what is drawn off, so that the pressure falls as it does on a pump
      physics.leakMicronPerMin = draw.chance(0.5) ? 0.4 * perS * 60 * physics.startMicron : 0;
      physics.oil = [];
      physics.pump = { perS, ultimateMicron: draw.uniform(20, 60), fromS: 0, untilS: 1e9 };
    },
  },
  "pump restarted": {
    condition: "not-provable",
    hidden: true,
    change: (scene) => {
      const { draw, physics } = scene;
      physics.leakMicronPerMin = draw.logUniform(5, 100);
      const fromS = seconds(scene) * draw.uniform(0.3, 0.7);
      physics.pump = { perS: 0.03, ultimateMicron: 40, fromS, untilS: fromS + draw.uniform(40, 120) };
    },
  },
  "gauge at the pump": {
    condition: "not-provable",
    hidden: true,
    change: (scene) => {
      scene.location = "pump";
    },
  },
  "gauge stuck": {
    condition: "not-provable",
    hidden: true,
    change: (scene) => {
      scene.habits.resolutionMicron = scene.draw.pick([0.1, 1]); // a coarser one may rest on its own
      scene.habits.stuckFromS = seconds(scene) * scene.draw.uniform(0, 0.5);
    },
  },
  "starts above target": {
    condition: "not-provable",
    change: (scene) => {
      const { criteria, draw, physics } = scene;
      const top = Math.min(1.6 * criteria.targetMicron, 0.9 * criteria.maxFinalMicron);
      physics.startMicron = draw.uniform(1.1 * criteria.targetMicron, Math.max(top, 1.15 * criteria.targetMicron));
    },
  },
  "gauge too coarse": {
    condition: "not-provable",
    change: (scene) => {
      const { draw, habits, physics, criteria } = scene;
      habits.resolutionMicron = 10 * draw.pick([10, 20]);
      habits.coarserFrom = [];
      criteria.maxSteadyRiseMicronPerMin = (habits.resolutionMicron / criteria.holdMinutes) * draw.uniform(0.4, 0.9);
      physics.leakMicronPerMin = criteria.maxSteadyRiseMicronPerMin * draw.uniform(0, 2);
      physics.startMicron = criteria.targetMicron * draw.uniform(0.5, 0.8);
    },
  },
};

export const KIND_NAMES = Object.keys(KINDS);

/** One simulated hold; the same kind and seed give the same hold. */
export function simulateHold(kindName: string, seed: number): HoldCase {
  const kind = KINDS[kindName]!;
  const draw = drawFrom(seed * 131 + KIND_NAMES.indexOf(kindName) * 7919 + 1);
  const scene = plainScene(draw);
  kind.change(scene);
  const { physics, habits, criteria } = scene;
  const times = scene.times ?? everySecond(scene);
  const readings = readGauge(draw, integrate(physics, scene.untilS + 1), times, habits);
  return {
    kind: kindName,
    seed,
    condition: kind.condition,
    leakMicronPerMin: kind.hidden ? null : physics.leakMicronPerMin,
    shown: kind.condition !== "sound" && kind.condition !== "not-provable" && kind.faint !== true,
    ordinary: kind.ordinary === true && criteria.holdMinutes <= 15 && scene.everyS <= 10,
    wire: {
      id: `${kindName} ${seed}`,
      internalVolumeL: draw.uniform(2, 40),
      wallTemperatureC: physics.wallC,
      refrigerant: draw.pick(["R-410A", "R-32", "R-134a", "R-290"]),
      gauge: { location: scene.location, resolutionMicron: habits.resolutionMicron, accuracyPercent: 5 },
      criteria,
      readings: times.map((s, index) => ({
        s,
        micron: readings[index]!,
        ...(scene.temperatures && {
          temperatureC: Math.round((physics.wallC + physics.warmingC(s) + 0.05 * draw.normal()) * 10) / 10,
        }),
      })),
    },
  };
}

function plainScene(draw: Draw): Scene {
  const chosen = draw.pick(CRITERIA);
  const criteria = {
    ...chosen,
    maxSteadyRiseMicronPerMin: draw.uniform(chosen.holdMinutes >= 30 ? 2 : chosen.targetMicron > 1000 ? 6 : 4, 10),
  };
  const startMicron = criteria.targetMicron * draw.uniform(0.35, 0.93);
  const untilS = criteria.holdMinutes * 60 * draw.uniform(1, 1.15);
  return {
    draw,
    criteria,
    physics: {
      startMicron,
      leakMicronPerMin: 0,
      leakFromS: 0,
      filmPerS: 0,
      filmMicron: 0,
      oil: [
        {
          micron: (criteria.maxFinalMicron - startMicron) * draw.uniform(0.03, 0.2),
          tauS: draw.logUniform(40, 160),
          fromS: 0,
        },
      ],
      surfaceMicron: draw.uniform(0, 3),
      surfaceFromS: 30,
      settleMicron: draw.uniform(-0.04, 0.02) * startMicron,
      settleTauS: draw.uniform(5, 20),
      wallC: draw.uniform(5, 35),
      warmingC: () => 0,
      oilPerDegree: draw.uniform(0, 0.03),
      pump: null,
    },
    habits: {
      gain: 1 + draw.uniform(-0.04, 0.04),
      scatterMicron: draw.uniform(0.3, 2),
      scatterShare: draw.uniform(0.0005, 0.004),
      wanderPerMin: 0.0003 * draw.normal(),
      resolutionMicron: draw.pick(chosen.targetMicron > 500 ? [0.1, 1] : [0.1, 1, 1, 1, 5]),
      coarserFrom: draw.pick([[], [1000], [1000, 10_000]]),
      strayShare: draw.chance(0.3) ? 0.005 : 0,
      stuckFromS: Number.POSITIVE_INFINITY,
    },
    untilS,
    everyS: draw.pick([1, 1, 2, 5, 10, 30]),
    times: null,
    temperatures: draw.chance(0.3),
    location: "system",
  };
}

function everySecond({ untilS, everyS }: Scene): number[] {
  const count = Math.floor(untilS / everyS + 1e-9) + 1;
  return Array.from({ length: count }, (_, index) => index * everyS);
}

function sunAndCloud({ physics, draw }: Scene): void {
  const swing = draw.uniform(1, 4);
  const periodS = draw.uniform(200, 900);
  const phase = draw.uniform(0, 6.28);
  physics.warmingC = (s) => swing * (Math.sin((2 * Math.PI * s) / periodS + phase) - Math.sin(phase));
}
