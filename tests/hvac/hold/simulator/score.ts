import { judgeHold, startHold } from "@/lib/hvac/hold/judge-hold";
import { holdFromWire, holdWire } from "@/lib/hvac/hold/schema";
import { fromPa } from "@/lib/hvac/units";
import type { HoldCase } from "./hold-case";

export interface KindScore {
  cases: number;
  verdicts: Record<string, number>;
  covered: number;
  measured: number;
}

/** What the judge makes of many holds of known truth. */
export interface Score {
  readonly kinds: Map<string, KindScore>;
  cases: number;
  falsePasses: HoldCase[];
  sound: number;
  heldBack: HoldCase[];
  /** Of those, the ones whose display stood still: no judge can tell them from a dead gauge. */
  heldStill: number;
  accused: HoldCase[];
  unsound: number;
  misnamed: HoldCase[];
  measured: number;
  missed: HoldCase[];
  ordinaryHalfWidths: number[];
}

export function scoreHolds(holds: Iterable<HoldCase>): Score {
  const score: Score = {
    kinds: new Map(),
    cases: 0,
    falsePasses: [],
    sound: 0,
    heldBack: [],
    heldStill: 0,
    accused: [],
    unsound: 0,
    misnamed: [],
    measured: 0,
    missed: [],
    ordinaryHalfWidths: [],
  };
  for (const hold of holds) countHold(score, hold);
  return score;
}

function countHold(score: Score, hold: HoldCase): void {
  const { verdict, leak, reasons } = judgeHold(holdFromWire(holdWire.parse(hold.wire)));
  const kind = score.kinds.get(hold.kind) ?? { cases: 0, verdicts: {}, covered: 0, measured: 0 };
  score.kinds.set(hold.kind, kind);
  score.cases += 1;
  kind.cases += 1;
  kind.verdicts[verdict] = (kind.verdicts[verdict] ?? 0) + 1;
  if (hold.condition === "sound") {
    score.sound += 1;
    if (verdict === "unproven") {
      score.heldBack.push(hold);
      if (reasons.some(({ code }) => code === "gauge-stuck")) score.heldStill += 1;
    } else if (verdict !== "dry-and-tight") score.accused.push(hold);
  } else {
    if (verdict === "dry-and-tight") score.falsePasses.push(hold);
    if (hold.shown) {
      score.unsound += 1;
      if (verdict !== hold.condition) score.misnamed.push(hold);
    }
  }
  if (hold.leakMicronPerMin === null || !leak) return;
  const [lo, hi] = leak.interval95PaPerS.map((paPerS) => fromPa(paPerS * 60, "micron")) as [number, number];
  const holds = lo <= hold.leakMicronPerMin && hold.leakMicronPerMin <= hi;
  score.measured += 1;
  kind.measured += 1;
  if (holds) kind.covered += 1;
  else score.missed.push(hold);
  if (hold.ordinary) score.ordinaryHalfWidths.push((hi - lo) / 2);
}

/** When a failing verdict is first given to a hold fed reading by reading, in seconds; null if never. */
export function firstAccusedS(hold: HoldCase): number | null {
  const { readings, ...terms } = holdFromWire(holdWire.parse(hold.wire));
  const running = startHold(terms);
  for (const reading of readings) {
    running.add(reading);
    const { verdict } = running.judge();
    if (verdict !== "unproven" && verdict !== "dry-and-tight") return reading.atS;
  }
  return null;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

export function reportLines(score: Score): string[] {
  const share = (part: number, whole: number) =>
    `${part}/${whole} = ${((100 * part) / Math.max(whole, 1)).toFixed(2)} %`;
  const lines = [...score.kinds].map(([kind, { cases, verdicts, covered, measured }]) => {
    const told = Object.entries(verdicts).map(([verdict, count]) => `${verdict} ${count}`);
    return `${kind} (${cases}): ${told.join(", ")}${measured ? `; interval holds ${share(covered, measured)}` : ""}`;
  });
  return [
    ...lines,
    `false passes ${share(score.falsePasses.length, score.cases - score.sound)}`,
    `sound held back ${share(score.heldBack.length, score.sound)}, ${score.heldStill} of them since the display stood still`,
    `sound accused ${share(score.accused.length, score.sound)}`,
    `cause named ${share(score.unsound - score.misnamed.length, score.unsound)}`,
    `interval holds the truth ${share(score.measured - score.missed.length, score.measured)}`,
    `median half width on ordinary holds ${median(score.ordinaryHalfWidths).toFixed(3)} micron/min`,
  ];
}
