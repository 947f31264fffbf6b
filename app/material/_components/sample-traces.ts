import { traceOf, type VacuumPoint, type VacuumTrace } from "@/components/vacuum-picture/trace";
import { toPa } from "@/lib/hvac";

const micron = (value: number) => toPa(value, "micron");

/** A small repeatable generator, so that the sheet looks the same at every visit. */
function noise(seed: number) {
  let state = seed;
  return () => {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296;
    return state / 4_294_967_296 - 0.5;
  };
}

/** Invented: pull-down from atmosphere for 40 minutes, then a hold that levels off at `settleMicron`. */
export function sampleHold(settleMicron: number, leakMicronPerMin = 0): VacuumTrace {
  const jitter = noise(settleMicron);
  const points: VacuumPoint[] = [];
  for (let s = 0; s <= 2400; s += 5) {
    const level = 760_000 * Math.exp(-s / 62) + 14_000 * Math.exp(-s / 330) + 300;
    points.push({ atS: s, pressureAbsPa: micron(level * (1 + 0.02 * jitter())) });
  }
  for (let s = 5; s <= 1200; s += 5) {
    const level = 310 + (settleMicron - 310) * (1 - Math.exp(-s / 380)) + (leakMicronPerMin * s) / 60;
    points.push({ atS: 2400 + s, pressureAbsPa: micron(level + 4 * jitter()) });
  }
  return traceOf(points);
}

/** Invented: the same record with the gauge out of reach for eight minutes and two readings of zero. */
export function sampleWithGap(): VacuumTrace {
  const { atS, pressureAbsPa } = sampleHold(560);
  const points = Array.from(atS, (at, index) => ({ atS: at, pressureAbsPa: pressureAbsPa[index] as number }));
  return traceOf(
    points
      .filter((point) => point.atS < 1300 || point.atS > 1780)
      .map((point) => (point.atS === 600 || point.atS === 605 ? { ...point, pressureAbsPa: 0 } : point)),
  );
}

/** Invented: what an engine might expect after the valve closed, a widening band around a level. */
export function sampleBand(settleMicron: number) {
  const atS = Array.from({ length: 41 }, (_, step) => 2400 + step * 45);
  const mid = atS.map((at) => 310 + (settleMicron - 310) * (1 - Math.exp(-(at - 2400) / 380)));
  const spread = atS.map((at) => 1 + (0.16 * (at - 2400)) / 1800);
  return {
    atS,
    midPa: mid.map(micron),
    loPa: mid.map((value, step) => micron(value / (spread[step] as number))),
    hiPa: mid.map((value, step) => micron(value * (spread[step] as number))),
  };
}

export const sampleEvents = [
  { id: "ballast-open", atS: 90, kind: "ballast", words: "ballast open" },
  { id: "ballast-shut", atS: 600, kind: "ballast", words: "ballast shut" },
  { id: "oil", atS: 1080, kind: "oil", words: "oil changed" },
  { id: "valve", atS: 2400, kind: "valve-closed", words: "valve closed" },
] as const;

export { micron };
