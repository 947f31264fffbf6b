import type { Condition } from "../simulator/hold-case";
import { type Circuit, saturationMicron } from "./circuit";
import type { Dice } from "./dice";
import type { Instrument } from "./instrument";
import { sun, towards } from "./weather";

type Open<T> = { -readonly [K in keyof T]: T[K] };

interface Criteria {
  targetMicron: number;
  holdMinutes: number;
  maxFinalMicron: number;
  maxSteadyRiseMicronPerMin: number;
}

export interface Draft {
  readonly dice: Dice;
  readonly criteria: Criteria;
  readonly holdS: number;
  readonly circuit: Open<Circuit>;
  readonly gauge: Instrument;
  accuracyPercent: number;
  everyS: number;
  untilS: number;
  /** Readings left out between these shares of the hold. */
  gap: readonly [number, number];
  handLog: number;
  thermometer: boolean;
  location: "system" | "pump";
}

export interface Kind {
  readonly condition: Condition;
  readonly plain?: boolean;
  readonly faint?: boolean;
  readonly unseen?: boolean;
  readonly draw?: (draft: Draft) => void;
}

const room = ({ criteria, circuit }: Draft) => criteria.maxFinalMicron - circuit.startMicron;

function oil(draft: Draft, level: number, skinShare: number, warmFromS = 0): void {
  const { dice, circuit, holdS } = draft;
  const skinS = holdS * skinShare;
  circuit.oil = {
    levelMicron: level,
    skinS,
    deepShare: dice.oneOf([0, dice.between(0.1, 0.6)]),
    deepS: skinS * dice.between(0.3, 2),
    warmFromS,
  };
}

function drop(draft: Draft, micron: number, overShare: number, coolsK: number): void {
  const { dice, circuit, holdS } = draft;
  const saturation = saturationMicron(circuit.wallC);
  circuit.film = {
    micron,
    perS: Math.min(micron, saturation) / saturation / (holdS * overShare),
    coolsKPerMicron: (coolsK * dice.between(0.3, 1)) / Math.min(micron, 3 * saturation),
    warmsInS: dice.scaled(60, 600),
  };
}

function leak({ dice, circuit }: Draft, low: number, high: number): void {
  circuit.leakPerMin = dice.scaled(low, high);
}

function timesAllowed(draft: Draft, low: number, high: number): void {
  leak(draft, low * draft.criteria.maxSteadyRiseMicronPerMin, high * draft.criteria.maxSteadyRiseMicronPerMin);
}

const fades = (draft: Draft) => oil(draft, room(draft) * draft.dice.between(0.05, 0.6), draft.dice.scaled(0.04, 0.2));

export const KINDS: Readonly<Record<string, Kind>> = {
  tight: { condition: "sound", plain: true },
  "refrigerant leaves oil": { condition: "sound", plain: true, draw: fades },
  "walls give off": {
    condition: "sound",
    plain: true,
    draw: ({ dice, circuit, ...rest }) => {
      circuit.walls = {
        micron: room({ dice, circuit, ...rest }) * dice.between(0.1, 0.6),
        pumpedS: dice.scaled(30, 2000),
      };
    },
  },
  "leak that is allowed": { condition: "sound", plain: true, draw: (draft) => timesAllowed(draft, 0.05, 0.4) },
  "a little of everything": {
    condition: "sound",
    draw: (draft) => {
      oil(draft, room(draft) * draft.dice.between(0.05, 0.25), draft.dice.scaled(0.04, 0.15));
      timesAllowed(draft, 0.05, 0.25);
      drop(draft, room(draft) * draft.dice.between(0.02, 0.15), draft.dice.between(0.05, 0.3), 2);
    },
  },
  "drop of water dries": {
    condition: "sound",
    draw: (draft) => drop(draft, room(draft) * draft.dice.between(0.1, 0.5), draft.dice.between(0.05, 0.4), 3),
  },
  spikes: {
    condition: "sound",
    draw: (draft) => {
      fades(draft);
      draft.gauge.spikes = draft.dice.between(0.01, 0.05);
    },
  },
  "no noise, whole steps": {
    condition: "sound",
    draw: (draft) => {
      fades(draft);
      Object.assign(draft.gauge, { floorMicron: 0, share: 0, rough: 0, stepMicron: draft.dice.oneOf([1, 2, 5, 10]) });
    },
  },
  "no noise, no steps": {
    condition: "sound",
    draw: (draft) => {
      fades(draft);
      Object.assign(draft.gauge, { floorMicron: 0, share: 0, rough: 0, stepMicron: 0.01, coarser: [] });
    },
  },
  "restless gauge": {
    condition: "sound",
    draw: (draft) => {
      fades(draft);
      draft.gauge.share = draft.dice.between(0.004, 0.008);
    },
  },
  "a stretch unread": {
    condition: "sound",
    draw: (draft) => {
      fades(draft);
      const from = draft.dice.between(0.1, 0.65);
      draft.gap = [from, from + draft.dice.between(0.1, 0.3)];
    },
  },
  "five lines": {
    condition: "sound",
    draw: (draft) => {
      oil(draft, room(draft) * draft.dice.between(0.02, 0.3), draft.dice.scaled(0.03, 0.12));
      draft.handLog = 5;
    },
  },
  "eleven lines": {
    condition: "sound",
    draw: (draft) => {
      oil(draft, room(draft) * draft.dice.between(0.02, 0.4), draft.dice.scaled(0.03, 0.15));
      draft.handLog = 11;
    },
  },
  "a reading a minute": {
    condition: "sound",
    draw: (draft) => {
      fades(draft);
      draft.everyS = 60;
    },
  },
  "sun on the coil, seen": {
    condition: "sound",
    draw: (draft) => {
      draft.circuit.warmingK = sun(draft.dice, 5, draft.holdS);
      draft.thermometer = true;
    },
  },
  "sun on the coil, unseen": {
    condition: "sound",
    draw: ({ dice, circuit, holdS }) => void Object.assign(circuit, { warmingK: sun(dice, 2, holdS) }),
  },
  "evening, seen": {
    condition: "sound",
    draw: (draft) => {
      draft.circuit.warmingK = towards(-draft.dice.between(2, 8), draft.dice.scaled(300, 3000));
      draft.thermometer = true;
    },
  },
  "morning, seen": {
    condition: "sound",
    draw: (draft) => {
      draft.circuit.warmingK = towards(draft.dice.between(2, 8), draft.dice.scaled(300, 3000));
      draft.thermometer = true;
    },
  },
  "heater comes on": {
    condition: "sound",
    draw: (draft) => {
      const { dice, holdS } = draft;
      oil(draft, room(draft) * dice.between(0.1, 0.5), dice.scaled(0.03, 0.1), holdS * dice.between(0.1, 0.4));
    },
  },
  "plain leak": { condition: "leaking", plain: true, draw: (draft) => leak(draft, 25, 600) },
  "leak and oil": {
    condition: "leaking",
    draw: (draft) => {
      fades(draft);
      leak(draft, 25, 400);
    },
  },
  "leak and walls": {
    condition: "leaking",
    draw: (draft) => {
      draft.circuit.walls = { micron: room(draft) * 0.3, pumpedS: draft.dice.scaled(30, 1000) };
      leak(draft, 25, 400);
    },
  },
  "leak little above": { condition: "leaking", faint: true, draw: (draft) => timesAllowed(draft, 1.2, 3.5) },
  "leak little above, oil": {
    condition: "leaking",
    faint: true,
    draw: (draft) => {
      fades(draft);
      timesAllowed(draft, 1.2, 3.5);
    },
  },
  "leak begins": {
    condition: "leaking",
    draw: (draft) => {
      leak(draft, 30, 300);
      draft.circuit.leakFromS = draft.holdS * draft.dice.between(0.15, 0.6);
    },
  },
  "leak begins near the end": {
    condition: "leaking",
    faint: true,
    draw: (draft) => {
      leak(draft, Math.max(25, 2 * draft.criteria.maxSteadyRiseMicronPerMin), 200);
      draft.circuit.leakFromS = draft.holdS * draft.dice.between(0.6, 0.85);
    },
  },
  "leak under spikes": {
    condition: "leaking",
    draw: (draft) => {
      leak(draft, 25, 300);
      draft.gauge.spikes = draft.dice.between(0.01, 0.05);
    },
  },
  "leak in five lines": {
    condition: "leaking",
    draw: (draft) => {
      leak(draft, 40, 300);
      draft.handLog = 5;
    },
  },
  "leak in the evening": {
    condition: "leaking",
    faint: true,
    draw: (draft) => {
      timesAllowed(draft, 1.3, 3);
      draft.circuit.warmingK = towards(-draft.dice.between(3, 15), draft.dice.scaled(300, 2000));
      draft.thermometer = draft.dice.happens(0.7);
    },
  },
  "leak in sun": {
    condition: "leaking",
    faint: true,
    draw: (draft) => {
      timesAllowed(draft, 1.3, 6);
      draft.circuit.warmingK = sun(draft.dice, 5, draft.holdS);
      draft.thermometer = draft.dice.happens(0.7);
    },
  },
  "standing water": {
    condition: "wet",
    draw: (draft) => drop(draft, 1e7, draft.dice.between(0.03, 0.4), 0.5),
  },
  "standing ice": {
    condition: "wet",
    draw: (draft) => {
      const { circuit, criteria, dice } = draft;
      circuit.wallC = dice.between(-1, criteria.maxFinalMicron > 2000 ? -4 : criteria.maxFinalMicron > 1200 ? -9 : -13);
      drop(draft, 1e7, dice.between(0.03, 0.3), 0.3);
    },
  },
  "soaked oil": {
    condition: "wet",
    draw: (draft) =>
      oil(draft, draft.criteria.maxFinalMicron * draft.dice.between(1.2, 3), draft.dice.scaled(0.06, 0.35)),
  },
  "creeping, still under": {
    condition: "wet",
    faint: true,
    draw: (draft) => {
      oil(
        draft,
        draft.criteria.maxFinalMicron * draft.dice.between(1.15, 1.8) - draft.circuit.startMicron,
        draft.dice.between(0.6, 2.5),
      );
    },
  },
  "soaked and leaking": {
    condition: "wet-and-leaking",
    draw: (draft) => {
      oil(draft, draft.criteria.maxFinalMicron * draft.dice.between(1.2, 2.5), draft.dice.scaled(0.04, 0.12));
      leak(draft, 40, 300);
    },
  },
  "broken off": {
    condition: "not-provable",
    draw: (draft) => void Object.assign(draft, { untilS: draft.holdS * draft.dice.between(0.15, 0.97) }),
  },
  "pump draws": {
    condition: "not-provable",
    unseen: true,
    draw: ({ dice, circuit }) => {
      circuit.pump = {
        perS: dice.scaled(0.002, 0.03),
        restMicron: circuit.startMicron * dice.between(0.2, 0.7),
        fromS: 0,
        untilS: 1e9,
      };
    },
  },
  "pump draws again": {
    condition: "not-provable",
    unseen: true,
    draw: (draft) => {
      const { dice, circuit, holdS } = draft;
      leak(draft, 5, 80);
      const fromS = holdS * dice.between(0.25, 0.8);
      circuit.pump = {
        perS: dice.scaled(0.02, 0.1),
        restMicron: circuit.startMicron * 0.3,
        fromS,
        untilS: fromS + dice.between(60, 200),
      };
    },
  },
  "display stands still": {
    condition: "not-provable",
    unseen: true,
    draw: (draft) => {
      timesAllowed(draft, 1.5, 5);
      draft.gauge.stepMicron = draft.dice.oneOf([0.1, 1]);
      draft.gauge.stuckFromS = draft.holdS * draft.dice.between(0, 0.5);
    },
  },
  "quiet display stands still": {
    condition: "not-provable",
    unseen: true,
    draw: (draft) => {
      if (draft.dice.happens(0.5)) fades(draft);
      timesAllowed(draft, 1.5, 5);
      Object.assign(draft.gauge, { floorMicron: 0, share: 0, rough: 0, stepMicron: draft.dice.oneOf([0.1, 1, 2, 5]) });
      draft.everyS = draft.dice.oneOf([1, 5, 15, 60]);
      draft.gauge.stuckFromS = draft.holdS * draft.dice.between(0, 0.6);
    },
  },
  "gauge at the pump": {
    condition: "not-provable",
    unseen: true,
    draw: (draft) => void Object.assign(draft, { location: "pump" }),
  },
  "isolated too soon": {
    condition: "not-provable",
    draw: ({ criteria, circuit, dice }) =>
      void Object.assign(circuit, { startMicron: criteria.targetMicron * dice.between(1.25, 1.5) }),
  },
  "half of it unread": {
    condition: "not-provable",
    draw: (draft) => {
      const from = draft.dice.between(0.05, 0.4);
      draft.gap = [from, from + draft.dice.between(0.5, 0.55)];
    },
  },
};
