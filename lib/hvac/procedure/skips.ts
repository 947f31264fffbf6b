import type { LogItem } from "../log/corrections";
import type { LogEntry, LogEntryOf, StepRecord } from "../log/entry";
import type { StepId } from "../log/step";
import { skipIsShown } from "./evidence";
import { type JobGround, recordedStep } from "./job-ground";
import type { NoEffectCode } from "./words";

export interface SkipsRead {
  /** Steps left out on grounds this kind of job allows and the log does not contradict. */
  readonly allowed: ReadonlyMap<StepId, readonly LogItem[]>;
  readonly dismissed: readonly { readonly entry: LogEntry; readonly code: NoEffectCode }[];
}

export function readSkips({ items, template }: JobGround): SkipsRead {
  const allowed = new Map<StepId, LogItem[]>();
  const dismissed: { entry: LogEntry; code: NoEffectCode }[] = [];
  const recorded = new Set(items.map(recordedStep));
  const gauged = items.some(showsGaugesFitted);
  for (const item of items) {
    if (item.original.kind !== "step-skipped") continue;
    const { step, grounds } = (item.current as LogEntryOf<"step-skipped">).body;
    const contradicted = recorded.has(step) || item.contested || (grounds.reason === "no-port-touched" && gauged);
    if (!template.steps[step].skipReasons.includes(grounds.reason) || !skipIsShown(grounds)) {
      dismissed.push({ entry: item.current, code: "skip-not-allowed" });
    } else if (contradicted) dismissed.push({ entry: item.current, code: "skip-contradicted" });
    else allowed.set(step, [...(allowed.get(step) ?? []), item]);
  }
  return { allowed, dismissed };
}

/** A pressure read at a port shows that a cap was off. */
function showsGaugesFitted({ original, current }: LogItem): boolean {
  if (original.kind !== "step-recorded") return false;
  const record = current.body as StepRecord;
  if (record.step === "performance") return record.evidence.suction !== null || record.evidence.liquid !== null;
  return record.step === "recover" || record.step === "break_and_charge";
}
