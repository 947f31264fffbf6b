/**
 * A second opinion: these holds share no code with the other simulators. The stuck-gauge rules were chosen with some of its seeds in sight (1001, 5001, 6001, 7001, 8001, 11001 and 21001 on): a figure to quote needs others.
 * A hold is drawn whole, then kept only if what its kind promises is true of it.
 */
import type { HoldCase } from "../simulator/hold-case";
import { levelOf, pressureOf, saturationMicron } from "./circuit";
import { Dice } from "./dice";
import { anyInstrument, displayed, type Instrument } from "./instrument";
import { type Draft, KINDS, type Kind } from "./kinds";
import { calm } from "./weather";

export const GAS_BALANCE_KINDS = Object.keys(KINDS);

const CRITERIA = [
  [500, 10, 1000],
  [500, 10, 1000],
  [500, 15, 700],
  [250, 15, 500],
  [500, 20, 700],
  [750, 15, 1200],
  [1000, 30, 1500],
  [500, 30, 900],
  [500, 60, 800],
  [2000, 20, 2600],
] as const;

function draft(dice: Dice): Draft {
  const [targetMicron, holdMinutes, maxFinalMicron] = dice.oneOf(CRITERIA);
  const maxSteadyRiseMicronPerMin =
    holdMinutes >= 30 ? dice.between(2, 10) : holdMinutes >= 15 ? dice.between(4, 10) : dice.between(5, 10);
  const holdS = holdMinutes * 60;
  const accuracyPercent = dice.oneOf([2, 5, 5, 5, 10]);
  return {
    dice,
    criteria: { targetMicron, holdMinutes, maxFinalMicron, maxSteadyRiseMicronPerMin },
    holdS,
    circuit: {
      wallC: dice.between(4, 36),
      warmingK: calm(dice, 0.5, holdS),
      outdoors: dice.between(0.7, 1),
      startMicron: targetMicron * dice.between(0.3, 0.85),
      leakPerMin: 0,
      leakFromS: 0,
      film: null,
      oil: null,
      walls: { micron: targetMicron * dice.between(0.01, 0.1), pumpedS: dice.scaled(60, 1000) },
      pump: null,
    },
    gauge: anyInstrument(dice, accuracyPercent / 100),
    accuracyPercent,
    everyS: dice.oneOf([1, 1, 2, 5, 10, 15, 30]),
    untilS: holdS * dice.between(1, 1.15),
    gap: [0, 0],
    handLog: 0,
    thermometer: dice.happens(0.25),
    location: "system",
  };
}

const SOUND_LEVEL = 0.8;
const SOUND_END = 0.45;

/** Whether the circuit is as its kind says by a margin: sound well within the criteria, or well beyond them. */
function keepsItsWord(
  { condition, faint }: Kind,
  { circuit, criteria, holdS, gauge, accuracyPercent }: Draft,
  pressure: Float64Array,
): boolean {
  const level = levelOf(circuit);
  const allowed = criteria.maxSteadyRiseMicronPerMin;
  const end = pressure[Math.min(Math.floor(holdS), pressure.length - 1)]!;
  const lastMinute = end - pressure[Math.max(0, Math.min(Math.floor(holdS), pressure.length - 1) - 60)]!;
  if (condition === "sound") {
    const quiet = criteria.holdMinutes * allowed > 8 * gauge.stepMicron * coarsestAt(gauge, end);
    const within = SOUND_LEVEL * criteria.maxFinalMicron * (1 - accuracyPercent / 200);
    return quiet && level !== null && level < within && end < within && lastMinute < SOUND_END * allowed + 0.01 * end;
  }
  if (condition === "wet" && !faint)
    return level === null
      ? saturationMicron(circuit.wallC) > 1.15 * criteria.maxFinalMicron
      : level > 1.15 * criteria.maxFinalMicron;
  return true;
}

function coarsestAt({ coarser }: Instrument, micron: number): number {
  return coarser.reduce((most, [from, times]) => (micron >= 0.9 * from ? times : most), 1);
}

export function gasBalanceHold(kindName: string, seed: number): HoldCase {
  const kind = KINDS[kindName]!;
  for (let attempt = 0; ; attempt++) {
    const dice = new Dice(1_000_003 * seed + 97 * GAS_BALANCE_KINDS.indexOf(kindName) + 10_007_000_081 * attempt);
    const drawn = draft(dice);
    kind.draw?.(drawn);
    const pressure = pressureOf(drawn.circuit, drawn.untilS);
    if (attempt < 200 && !keepsItsWord(kind, drawn, pressure)) continue;
    return asCase(kindName, seed, kind, drawn, pressure);
  }
}

function asCase(kindName: string, seed: number, kind: Kind, drawn: Draft, pressure: Float64Array): HoldCase {
  const { dice, circuit, criteria, gauge, holdS, location, thermometer } = drawn;
  const times = timesOf(drawn);
  const shown = displayed(dice, pressure, times, gauge);
  const thermometerStepC = dice.oneOf([0.1, 0.1, 0.5]);
  return {
    kind: kindName,
    seed,
    condition: kind.condition,
    leakMicronPerMin: kind.unseen ? null : circuit.leakPerMin,
    shown:
      (kind.condition === "wet" || kind.condition === "leaking" || kind.condition === "wet-and-leaking") && !kind.faint,
    ordinary: kind.plain === true && holdS <= 900 && drawn.everyS <= 10,
    wire: {
      id: `${kindName} ${seed}`,
      internalVolumeL: dice.scaled(1, 60),
      wallTemperatureC: circuit.wallC,
      refrigerant: dice.oneOf(["R-410A", "R-32", "R-454B", "R-290"]),
      gauge: { location, resolutionMicron: gauge.stepMicron, accuracyPercent: drawn.accuracyPercent },
      criteria,
      readings: times.map((s, index) => ({
        s,
        micron: shown[index]!,
        ...(thermometer && {
          temperatureC:
            Math.round((circuit.wallC + circuit.warmingK(s) + 0.05 * dice.normal()) / thermometerStepC) *
            thermometerStepC,
        }),
      })),
    },
  };
}

function timesOf({ dice, holdS, untilS, everyS, gap, handLog }: Draft): number[] {
  if (handLog > 0) return Array.from({ length: handLog }, (_, line) => Math.round((line * holdS) / (handLog - 1)));
  const times = [0];
  for (let s = everyS; s <= untilS + 1e-9; s += everyS) {
    if (s > gap[0] * holdS && s < gap[1] * holdS) continue;
    if (!dice.happens(0.02)) times.push(Math.round((s + dice.between(0, 0.2 * everyS)) * 10) / 10);
  }
  const last = Math.floor(untilS);
  if (times[times.length - 1]! < last) times.push(last);
  return times;
}
