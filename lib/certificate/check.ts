import type { JobState, LogEntry, Proof, Strength } from "@/lib/hvac/procedure";
import type { EntryId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { wireOf } from "@/lib/sync/protocol";

/** What a paper says that can be compared later: the digest it was closed on and how the proof was judged. */
export interface PaperFacts {
  readonly digest: string;
  readonly strength: Strength;
  /** The judges' verdicts on the three tests, "left-out" or "allowed" where there was none. */
  readonly verdicts: PaperVerdicts;
}
export interface PaperVerdicts {
  readonly pressureTest: string;
  readonly leakCheck: string;
  readonly hold: string;
}

/** What the record gives when everything is computed again. */
export interface Recomputed {
  readonly state: JobState;
  readonly proof: Proof;
  readonly entries: readonly LogEntry[];
}

export type CheckOutcome =
  /** Digest and verdict are what the paper says. */
  | "matches"
  /** The entries are unaltered, and today's rules judge them otherwise. */
  | "judged-otherwise"
  /** The entries the job was closed on are unaltered, and others came later. */
  | "entries-came-later"
  /** The entries are not those the paper was made from. */
  | "altered"
  /** The closing has not arrived here: a tablet has not sent it yet, or it was never written. */
  | "not-arrived";

export interface Check {
  readonly outcome: CheckOutcome;
  /** The digest as computed now over what the job was closed on; null where no closing is known. */
  readonly digest: string | null;
  readonly strength: Strength;
  readonly verdicts: PaperVerdicts;
}

/** Whether a paper still says what the record says: the digest and the verdict are computed again, nothing stored is believed. */
export function judgePaper(paper: PaperFacts, now: Recomputed): Check {
  const { state, proof, entries } = now;
  const closing = entries.find((entry) => entry.kind === "job-closed" && entry.body.digest === paper.digest);
  const verdicts = paperVerdicts(state);
  const said = { strength: proof.strength, verdicts };
  if (closing?.kind !== "job-closed") return { outcome: "not-arrived", digest: null, ...said };
  const later = new Set<EntryId>(state.reopenedBy);
  const covered = entries.filter(({ id }) => id !== closing.id && !later.has(id)).map(wireOf);
  const digest = closingDigest(covered, closing.body.heads);
  return { outcome: outcomeOf(paper, digest, now, verdicts), digest, ...said };
}

function outcomeOf(paper: PaperFacts, digest: string, { state, proof }: Recomputed, now: PaperVerdicts): CheckOutcome {
  if (digest !== paper.digest) return "altered";
  if (state.certificate === "stale") return "entries-came-later";
  const same =
    proof.strength === paper.strength &&
    now.pressureTest === paper.verdicts.pressureTest &&
    now.leakCheck === paper.verdicts.leakCheck &&
    now.hold === paper.verdicts.hold;
  return state.status === "closed" && same ? "matches" : "judged-otherwise";
}

/** The verdicts a paper carries, from the state it is made of. */
export function paperVerdicts(state: JobState): PaperVerdicts {
  const of = (step: "pressure_test" | "leak_check" | "hold"): string => {
    const found = state.steps.find((each) => each.step === step);
    if (!found) return "none";
    if (found.settledBy === "skip") return "left-out";
    return found.settledBy === "override" ? "allowed" : (found.verdict?.verdict ?? "none");
  };
  return { pressureTest: of("pressure_test"), leakCheck: of("leak_check"), hold: of("hold") };
}
