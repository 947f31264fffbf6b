import type { JobState, LogEntry, MassMove } from "@/lib/hvac/procedure";
import { toGrams } from "./posting";

/**
 * What a circuit holds after a closed job, in grams, or null where the record does not say.
 *
 * A circuit that was opened and evacuated holds what was weighed in since it was last recovered. One that was only topped up is
 * taken to be filled to its full charge, where that is known (the usual purpose of a top-up; common practice).
 */
export function contentAfterJob(
  state: Pick<JobState, "status" | "circuitWasOpened" | "steps">,
  entries: readonly LogEntry[],
  moves: readonly MassMove[],
  fullChargeGrams: number | null,
): number | null {
  if (state.status !== "closed") return null;
  const charged = moves.filter(({ what }) => what === "charged");
  const lastRecovery = moves.findLastIndex(({ what }) => what === "recovered");
  const evacuated = state.steps.some(({ step, settledBy }) => step === "evacuate" && settledBy === "record");
  if (state.circuitWasOpened && evacuated) {
    if (entries.some(isFactoryCharged)) return null;
    return toGrams(moves.slice(lastRecovery + 1).reduce((sum, { massKg }) => sum + massKg, 0));
  }
  return charged.length > 0 && lastRecovery < 0 ? fullChargeGrams : null;
}

/** The unit brought its charge along: only the adjustment was weighed. */
function isFactoryCharged(entry: LogEntry): boolean {
  if (entry.kind !== "step-recorded" || entry.body.step !== "break_and_charge") return false;
  const { basis, brokenWith } = entry.body.evidence;
  return brokenWith === "factory-charge" || (basis.by === "factory-and-line-set" && basis.factoryChargeInUnit);
}

/**
 * Grams that had leaked out before the job: what the books said was in the circuit less what turned out to be there.
 * Never negative: a circuit that held more than the books explain is an exception for a person, not a posting.
 */
export function foundShortGrams(bookGrams: number, contentGrams: number): number {
  return Math.max(0, bookGrams - contentGrams);
}
