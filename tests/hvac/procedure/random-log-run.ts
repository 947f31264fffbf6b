import fc from "fast-check";
import { expect } from "vitest";
import { foldJob } from "@/lib/hvac/procedure/fold-job";
import type { FoldTools } from "@/lib/hvac/procedure/judge-record";
import { whyNotClosed } from "./closing-oracle";
import { standIns } from "./job-log";
import { decodeLog, idDigest } from "./random-logs";

const tools: FoldTools = { judges: standIns, traces: new Map(), closingDigest: idDigest };
/** One number is one act; a log is 8 to 26 of them. */
const script = fc.array(fc.nat({ max: 32 * 6 * 420 - 1 }), { minLength: 8, maxLength: 26, size: "max" });

/** A shuffle that depends on nothing but its seed. */
function shuffled<T>(items: readonly T[], seed: number): T[] {
  const out = [...items];
  let state = seed | 1;
  for (let at = out.length - 1; at > 0; at -= 1) {
    state = Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x9e3779b9;
    const other = (state >>> 0) % (at + 1);
    [out[at], out[other]] = [out[other]!, out[at]!];
  }
  return out;
}

export interface RunTally {
  logs: number;
  closed: number;
  byOverride: number;
  reopened: number;
  review: number;
  shuffled: number;
}

/** How many logs there are to each that is folded again in another order: folding is most of the time. */
const LOGS_PER_SHUFFLE = 3;

/** Folds random logs and holds every closed one against the oracle; every third is folded in another order of arrival too. */
export function runRandomLogs(style: "alone" | "together", runs: number, seed: number): RunTally {
  const tally: RunTally = { logs: 0, closed: 0, byOverride: 0, reopened: 0, review: 0, shuffled: 0 };
  fc.assert(
    fc.property(script, fc.nat(), (numbers, order) => {
      const log = decodeLog(numbers, style);
      const state = foldJob(log.entries, tools);
      tally.logs += 1;
      if (state.status === "closed") {
        tally.closed += 1;
        if (state.steps.some(({ settledBy }) => settledBy === "override")) tally.byOverride += 1;
        const broken = whyNotClosed(log);
        if (broken !== null) throw new Error(broken);
      }
      if (state.certificate === "stale") tally.reopened += 1;
      if (state.reviews.length > 0) tally.review += 1;
      if (tally.logs % LOGS_PER_SHUFFLE !== 0) return;
      tally.shuffled += 1;
      const again = shuffled([...log.entries, ...log.entries.slice(0, order % 5)], order);
      if (JSON.stringify(foldJob(again, tools)) !== JSON.stringify(state)) throw new Error("order of arrival matters");
    }),
    { numRuns: runs, seed },
  );
  console.info(`random logs, ${style}`, tally);
  expect(tally.logs).toBeGreaterThanOrEqual(runs);
  expect(tally.shuffled).toBeGreaterThanOrEqual(Math.floor(runs / LOGS_PER_SHUFFLE));
  return tally;
}
