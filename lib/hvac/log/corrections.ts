import type { Entry, LogEntry } from "./entry";
import { keyOrderFree } from "./merge";
import type { OrderedLog } from "./order";

/** One statement of the log with everything that was said about it since; it keeps the place of its first version. */
export interface LogItem {
  readonly index: number;
  readonly original: LogEntry;
  /** The first version and every correction that counts, in causal order. */
  readonly versions: readonly LogVersion[];
  /** The version that counts. */
  readonly current: LogEntry;
  /** Two corrections were written side by side: which one counts is for a person to say. */
  readonly contested: boolean;
}
export interface LogVersion {
  readonly index: number;
  readonly entry: LogEntry;
}

export type CorrectionFault =
  | "correction-target-missing"
  | "correction-target-unseen"
  | "correction-of-other-kind"
  | "not-correctable"
  | "raw-readings-stay";

export interface CorrectedLog {
  readonly items: readonly LogItem[];
  readonly faults: readonly { readonly entry: LogEntry; readonly code: CorrectionFault }[];
}

/** Folds corrections into what they correct: a chain of them is one item, and its latest version counts. */
export function applyCorrections(log: OrderedLog): CorrectedLog {
  const rootOf = new Map<number, number>();
  const versions = new Map<number, LogVersion[]>();
  const faults: { entry: LogEntry; code: CorrectionFault }[] = [];
  for (const [index, entry] of log.entries.entries()) {
    if (entry.supersedes === undefined) {
      rootOf.set(index, index);
      versions.set(index, [{ index, entry }]);
      continue;
    }
    const target = log.indexOf(entry.supersedes.entry);
    const root = target === undefined ? undefined : rootOf.get(target);
    const fault = faultOf(log, index, target, root);
    if (fault !== null || root === undefined) {
      faults.push({ entry, code: fault ?? "correction-target-missing" });
      continue;
    }
    rootOf.set(index, root);
    versions.get(root)!.push({ index, entry });
  }
  const items = [...versions].map(([index, chain]) => itemOf(log, index, chain));
  return { items, faults };
}

function itemOf(log: OrderedLog, index: number, versions: readonly LogVersion[]): LogItem {
  const last = versions[versions.length - 1]!;
  return {
    index,
    original: versions[0]!.entry,
    versions,
    current: last.entry,
    contested: versions.some((version) => version !== last && !log.before(version.index, last.index)),
  };
}

function faultOf(
  log: OrderedLog,
  index: number,
  target: number | undefined,
  root: number | undefined,
): CorrectionFault | null {
  if (target === undefined || root === undefined) return "correction-target-missing";
  if (!log.before(target, index)) return "correction-target-unseen";
  const entry = log.entries[index]!;
  const original = log.entries[root]!;
  if (entry.kind === "job-closed" || entry.kind === "circuit-opened") return "not-correctable";
  if (subjectOf(entry) !== subjectOf(original)) return "correction-of-other-kind";
  const raw = rawReadings(original);
  return raw !== null && raw !== rawReadings(entry) ? "raw-readings-stay" : null;
}

/** What an entry is about: a correction may not change that. */
function subjectOf(entry: Entry): string {
  switch (entry.kind) {
    case "step-recorded":
    case "step-skipped":
    case "override-asked":
      return `${entry.kind} ${entry.body.step}`;
    case "override-answered":
      return `${entry.kind} ${entry.body.asks}`;
    case "criteria-replaced":
      return `${entry.kind} ${entry.body.row.criteria.step} ${entry.body.row.origin}`;
    default:
      return entry.kind;
  }
}

/** Text of the readings an instrument delivered; null where there are none or a person typed them. */
function rawReadings(entry: Entry): string | null {
  if (entry.kind !== "step-recorded") return null;
  const { evidence } = entry.body;
  if (!("record" in evidence)) return null;
  if (evidence.record.kept === "inline" && evidence.source === "typed") return null;
  return keyOrderFree(evidence.record);
}
