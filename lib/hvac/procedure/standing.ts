import type { LogItem } from "../log/corrections";
import type { StepId } from "../log/step";
import type { JobGround } from "./job-ground";
import type { JudgedRecord } from "./judged-records";
import type { GrantedOverride } from "./overrides";
import { takesAway, type Voiding } from "./voiding";

/** How one record stands among the rest of the log. */
export type Standing =
  | { readonly at: "stands" }
  /** Something that throws it away came after it. */
  | { readonly at: "void"; readonly by: Voiding }
  /** Something that would throw it away was written beside it. */
  | { readonly at: "order-unknown"; readonly beside: number }
  /** A step it rests on was not settled before it. */
  | { readonly at: "early"; readonly lacks: StepId };

export interface StandingReader {
  readonly of: (record: JudgedRecord) => Standing;
  readonly ofSkip: (skip: LogItem, step: StepId) => Standing;
  /** Whether records of this step that passed, and still count, came before the place in the log. */
  readonly needMet: (step: StepId, index: number) => "met" | "beside" | "unmet";
}

/** Reads, once for each record, whether it still counts where it stands. */
export function standingReader(
  ground: JobGround,
  records: readonly JudgedRecord[],
  voidings: readonly Voiding[],
  skips: ReadonlyMap<StepId, readonly LogItem[]>,
  overrides: readonly GrantedOverride[],
): StandingReader {
  const { log, template } = ground;
  const known = new Map<number, Standing>();

  const voidedAt = (index: number, step: StepId): Standing | null => {
    let beside: Standing | null = null;
    for (const voiding of voidings) {
      if (voiding.index === index || !takesAway(voiding, step, index, log) || log.before(voiding.index, index))
        continue;
      if (log.before(index, voiding.index)) return { at: "void", by: voiding };
      beside ??= { at: "order-unknown", beside: voiding.index };
    }
    return beside;
  };

  const needMet = (step: StepId, index: number): "met" | "beside" | "unmet" => {
    if (overrides.some((override) => override.step === step)) return "met";
    if ((skips.get(step) ?? []).some((skip) => voidedAt(skip.index, step) === null)) return "met";
    let beside = false;
    for (const record of records) {
      if (record.step !== step || record.outcome !== "passed" || log.before(index, record.index)) continue;
      if (of(record).at !== "stands") continue;
      if (log.before(record.index, index)) return "met";
      beside = true;
    }
    return beside ? "beside" : "unmet";
  };

  const of = (record: JudgedRecord): Standing => {
    const seen = known.get(record.index);
    if (seen !== undefined) return seen;
    const fresh = standingOf(record);
    known.set(record.index, fresh);
    return fresh;
  };
  const standingOf = (record: JudgedRecord): Standing => {
    const voided = voidedAt(record.index, record.step);
    if (voided !== null) return voided;
    for (const need of template.steps[record.step].needs) {
      const met = needMet(need, record.index);
      if (met === "beside") return { at: "order-unknown", beside: record.index };
      if (met === "unmet") return { at: "early", lacks: need };
    }
    return { at: "stands" };
  };
  return { of, needMet, ofSkip: (skip, step) => voidedAt(skip.index, step) ?? { at: "stands" } };
}
