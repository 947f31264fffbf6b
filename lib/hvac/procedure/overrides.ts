import type { EntryId } from "@/lib/ids";
import type { LogItem } from "../log/corrections";
import type { LogEntry, LogEntryOf } from "../log/entry";
import type { StepId } from "../log/step";
import type { JobGround } from "./job-ground";
import { type JudgedRecord, showsLeak } from "./judged-records";
import type { OverrideState } from "./state";
import { takesAway, type Voiding } from "./voiding";
import type { NoEffectCode } from "./words";

export interface GrantedOverride {
  readonly step: StepId;
  readonly ask: EntryId;
}
interface Dismissed {
  readonly entry: LogEntry;
  readonly code: NoEffectCode;
}
export interface OverridesRead {
  readonly states: readonly OverrideState[];
  /** Those that stand: answered by a supervisor by the server's word, and not overtaken. */
  readonly granted: readonly GrantedOverride[];
  readonly dismissed: readonly Dismissed[];
  readonly barOf: (step: StepId) => OverrideBar | null;
}

const TIGHTNESS: ReadonlySet<StepId> = new Set(["pressure_test", "leak_check", "hold"]);

export type OverrideBar = "ask-not-allowed" | "override-barred";

/** Which steps may not be overridden now: recovery never, tightness never while a failed test has not been passed since. */
export function overrideBars(
  ground: JobGround,
  records: readonly JudgedRecord[],
): (step: StepId) => OverrideBar | null {
  const unhealed = records.some((record) => isUnhealedFailure(record, ground, records));
  return (step) => {
    if (!ground.template.steps[step].overridable) return "ask-not-allowed";
    return unhealed && TIGHTNESS.has(step) ? "override-barred" : null;
  };
}

/** A tightness test that failed, corrected away or not, and that no later one of its step has passed since. */
function isUnhealedFailure(record: JudgedRecord, { log }: JobGround, records: readonly JudgedRecord[]): boolean {
  if (!TIGHTNESS.has(record.step)) return false;
  const failed = record.correctedAway || record.outcome === "failed";
  if (!failed || (record.step === "hold" && !record.correctedAway && !showsLeak(record.verdict))) return false;
  return !records.some(
    (later) => later.step === record.step && later.outcome === "passed" && log.before(record.index, later.index),
  );
}

/** Pairs questions with answers; an answer counts only with the supervisor's role stamped by the server. */
export function readOverrides(
  ground: JobGround,
  records: readonly JudgedRecord[],
  voidings: readonly Voiding[],
): OverridesRead {
  const barOf = overrideBars(ground, records);
  const { log, items } = ground;
  const asks = items.filter((item) => item.original.kind === "override-asked");
  const dismissed: Dismissed[] = [];
  const answers = new Map<number, LogItem[]>();
  for (const item of items) {
    if (item.original.kind !== "override-answered") continue;
    const ask = asks.find(({ versions }) => versions.some(({ entry }) => entry.id === answerOf(item).body.asks));
    const attested = item.versions.every(({ entry }) => entry.stamp?.roles.includes("supervisor") === true);
    if (ask === undefined || !log.before(ask.index, item.index)) {
      dismissed.push({ entry: item.current, code: "answer-to-nothing" });
    } else if (!attested) {
      const waits = item.versions.every(
        ({ entry }) => entry.stamp === null || entry.stamp.roles.includes("supervisor"),
      );
      dismissed.push({ entry: item.current, code: waits ? "answer-waits" : "answer-not-supervisor" });
    } else answers.set(ask.index, [...(answers.get(ask.index) ?? []), item]);
  }

  const granted: GrantedOverride[] = [];
  const states = asks.map((item): OverrideState => {
    const ask = item.current as LogEntryOf<"override-asked">;
    const { step } = ask.body;
    const given = answers.get(item.index) ?? [];
    const standing = given.filter((one) => !given.some((other) => log.before(one.index, other.index)));
    const answer = agreedAnswer(standing);
    const last = standing.at(-1);
    let stands = false;
    if (answer === "granted") {
      const overtaken = voidings.some(
        (voiding) => takesAway(voiding, step, item.index, log) && !log.before(voiding.index, item.index),
      );
      const bar = barOf(step) ?? (overtaken ? "override-overtaken" : null);
      if (bar === null) {
        stands = true;
        granted.push({ step, ask: item.original.id });
      } else for (const one of standing) dismissed.push({ entry: one.current, code: bar });
    } else if (!ground.template.steps[step].overridable) dismissed.push({ entry: ask, code: "ask-not-allowed" });
    return {
      ask: item.original.id,
      step,
      askedBy: ask.person,
      why: ask.body.why,
      answer,
      answeredBy: last?.current.person ?? null,
      answerWhy: last ? answerOf(last).body.why : null,
      stands,
      ownAnswer: last !== undefined && last.current.person === ask.person,
    };
  });
  return { states, granted, dismissed, barOf };
}

function answerOf(item: LogItem): LogEntryOf<"override-answered"> {
  return item.current as LogEntryOf<"override-answered">;
}

function agreedAnswer(standing: readonly LogItem[]): OverrideState["answer"] {
  if (standing.length === 0) return "none";
  if (standing.some(({ contested }) => contested)) return "contested";
  const granted = standing.filter((item) => answerOf(item).body.granted).length;
  if (granted === standing.length) return "granted";
  return granted === 0 ? "refused" : "contested";
}
