import type { LogItem } from "../log/corrections";
import type { StepRecord } from "../log/entry";
import type { StepId } from "../log/step";
import { needsFlammableCare } from "./flammable";
import { type JobGround, recordedStep } from "./job-ground";
import { type JudgeGround, type JudgeTools, judgeRecord } from "./judge-record";
import { type Knowledge, sameCircuit, sameRows } from "./knowledge";
import type { Outcome, StepVerdict } from "./verdict";
import { missingText } from "./words";

/** One record of a step with what it amounts to. */
export interface JudgedRecord {
  readonly item: LogItem;
  readonly index: number;
  readonly step: StepId;
  readonly verdict: StepVerdict;
  readonly outcome: Outcome;
  /** An earlier version failed: the step has to be done again, whatever the correction says. */
  readonly correctedAway: boolean;
}

/** Judges every record of the log, earlier ones first, since later ones ask about them. */
export function judgeRecords(ground: JobGround, tools: JudgeTools): JudgedRecord[] {
  const judged: JudgedRecord[] = [];
  for (const item of ground.items) {
    const step = recordedStep(item);
    if (step !== null) judged.push(judgeItem(item, step, ground, tools, judged));
  }
  return judged;
}

function judgeItem(
  item: LogItem,
  step: StepId,
  ground: JobGround,
  tools: JudgeTools,
  earlier: readonly JudgedRecord[],
): JudgedRecord {
  const bearing = bearingOn(item, ground, earlier);
  const verdicts = item.versions.map(({ entry }) => {
    const record = entry.body as StepRecord;
    const stored = tools.verdicts?.get(entry.id);
    return judgeThenAndNow(record, item.index, ground, bearing, tools, stored);
  });
  const current = verdicts[verdicts.length - 1]!;
  const correctedAway = verdicts.slice(0, -1).some(({ outcome }) => outcome === "failed");
  let verdict = current;
  if (correctedAway && current.outcome !== "failed") verdict = held(current, "test-corrected-away");
  else if (item.contested && current.outcome === "passed") verdict = held(current, "corrections-contested");
  return { item, index: item.index, step, verdict, outcome: verdict.outcome, correctedAway };
}

/**
 * A record is judged by the criteria its author had seen and by those in force now, and passes only if it passes both.
 * Facts are truths about the circuit: later knowledge may complete a record, but never undoes a failed test.
 */
function judgeThenAndNow(
  record: StepRecord,
  index: number,
  ground: JobGround,
  bearing: JudgeGround,
  tools: JudgeTools,
  stored: StepVerdict | undefined,
): StepVerdict {
  const { now } = ground;
  const then = ground.knowledge.asSeenFrom(index);
  const under = (facts: Knowledge, rules: Knowledge) =>
    judgeRecord(record, facts.circuit, rules.rows, bearing, tools, needsFlammableCare(facts.circuit));
  const first = stored ?? under(then, then);
  const sameFacts = sameCircuit(then, now);
  const sameRules = sameRows(then, now);
  if (sameFacts && sameRules) return first;
  const nowByThen = sameFacts ? first : under(now, then);
  const nowByNow = sameRules ? nowByThen : under(now, now);
  for (const verdict of [first, nowByThen, nowByNow]) if (verdict.outcome === "failed") return verdict;
  return nowByThen.outcome === "passed" ? nowByNow : nowByThen;
}

/** What earlier entries of the log mean for the judgement of this one. */
function bearingOn(item: LogItem, ground: JobGround, earlier: readonly JudgedRecord[]): JudgeGround {
  const { log, now, kindInForce } = ground;
  const before = earlier.filter(({ index }) => log.before(index, item.index));
  return {
    wet: ground.wet,
    dryAgain: isToBeDriedAgain(before, log),
    verificationDue:
      now.circuit?.appliance.leakRulesApply === true && (kindInForce === "leak_repair" || kindInForce === "unknown"),
    joints: [...new Set(before.flatMap(({ item: { current } }) => jointsOf(current.body as StepRecord)))],
    chargedBeforeKg: chargedSinceVacuum(before, ground),
  };
}

/** Whether a hold found water and none has passed since. */
export function isToBeDriedAgain(records: readonly JudgedRecord[], log: JobGround["log"]): boolean {
  const holds = records.filter(({ step }) => step === "hold");
  const wetHolds = holds.filter(({ outcome, verdict }) => outcome === "failed" && showsWater(verdict));
  return wetHolds.some((wet) => !holds.some((hold) => hold.outcome === "passed" && log.before(wet.index, hold.index)));
}

export function showsWater({ verdict }: StepVerdict): boolean {
  return verdict === "wet" || verdict === "wet-and-leaking";
}
export function showsLeak({ verdict }: StepVerdict): boolean {
  return verdict === "leaking" || verdict === "wet-and-leaking";
}

function jointsOf(record: StepRecord): readonly string[] {
  return record.step === "open_repair" ? record.evidence.joints : [];
}

/** Mass weighed in since the last evacuation its author had seen. */
function chargedSinceVacuum(before: readonly JudgedRecord[], { log }: JobGround): number {
  const vacuums = before.filter(({ step }) => step === "evacuate");
  let sumKg = 0;
  for (const { item, index } of before) {
    const record = item.current.body as StepRecord;
    if (record.step !== "break_and_charge") continue;
    if (!vacuums.some((vacuum) => log.before(index, vacuum.index))) sumKg += record.evidence.weighedInKg;
  }
  return sumKg;
}

function held(verdict: StepVerdict, code: "test-corrected-away" | "corrections-contested"): StepVerdict {
  const reason = { code, text: missingText(code, null) };
  return { ...verdict, outcome: "unproven", reasons: [reason, ...verdict.reasons] };
}
