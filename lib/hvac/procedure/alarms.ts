import type { EntryId } from "@/lib/ids";
import type { StepRecord } from "../log/entry";
import type { StepId } from "../log/step";
import type { JobGround } from "./job-ground";
import type { JudgeTools } from "./judge-record";
import type { JudgedRecord } from "./judged-records";
import type { OverridesRead } from "./overrides";
import type { SkipsRead } from "./skips";
import type { Alarm } from "./state";
import { takesAway, type Voiding } from "./voiding";
import { type AlarmCode, alarmText } from "./words";

export interface AlarmGround {
  readonly ground: JobGround;
  readonly records: readonly JudgedRecord[];
  readonly voidings: readonly Voiding[];
  readonly skips: SkipsRead;
  readonly overrides: OverridesRead;
}

const EARLY: Partial<Record<StepId, AlarmCode>> = {
  open_repair: "opened-before-recovery",
  evacuate: "evacuated-before-tests",
  break_and_charge: "charged-before-hold",
};

/** What happened and should not have, in the order of the log. Nothing that comes later takes an alarm back. */
export function listAlarms(read: AlarmGround, tools: JudgeTools): Alarm[] {
  const { ground, records } = read;
  const alarms: { readonly index: number; readonly alarm: Alarm }[] = [];
  const add = (index: number, entry: EntryId, code: AlarmCode) =>
    alarms.push({ index, alarm: { code, entry, text: alarmText(code) } });
  for (const item of ground.items) {
    if (item.original.kind === "circuit-opened" && !wasMet("recover", item.index, read)) {
      add(item.index, item.current.id, "opened-before-recovery");
    }
    if (ground.kindContradicted && (item.original.kind === "job-kind-set" || item.original.kind === "job-opened")) {
      const body = item.current.body as { jobKind?: string; kind?: string };
      if ((body.jobKind ?? body.kind) === ground.now.kind) add(item.index, item.current.id, "kind-contradicted");
    }
  }
  for (const { item, index, step, verdict } of records) {
    const entry = item.current.id;
    if (ground.template.steps[step].needs.some((need) => !wasMet(need, index, read))) {
      add(index, entry, EARLY[step] ?? "recorded-out-of-order");
    }
    for (const code of mishapsOf(item.current.body as StepRecord, verdict.verdict)) add(index, entry, code);
    const record = item.current.body as StepRecord;
    if (record.step === "recover") {
      const question = {
        evidence: record.evidence,
        circuit: ground.now.circuit,
        day: item.current.deviceAt.slice(0, 10),
      };
      for (const { code, text } of tools.judges.cylinders(question))
        alarms.push({ index, alarm: { code, entry, text } });
    }
  }
  alarms.sort((a, b) => a.index - b.index);
  const forks = ground.log.forks.map(
    (entry): Alarm => ({ code: "sequence-forked", entry, text: alarmText("sequence-forked") }),
  );
  return [...alarms.map(({ alarm }) => alarm), ...forks];
}

function mishapsOf(record: StepRecord, verdict: string): AlarmCode[] {
  const codes: AlarmCode[] = [];
  if (record.step === "pressure_test") {
    if (verdict === "over-pressure") codes.push("over-pressure");
    if (record.evidence.gas !== "nitrogen" && record.evidence.gas !== "nitrogen-with-trace")
      codes.push("wrong-test-gas");
  }
  if (record.step === "evacuate" && record.evidence.sweeps.some(({ brokenWith }) => brokenWith === "air")) {
    codes.push("vacuum-broken-to-air");
  }
  if (record.step === "break_and_charge") {
    if (record.evidence.brokenWith === "air") codes.push("vacuum-broken-to-air");
    if (!record.evidence.compressorOffUnderVacuum) codes.push("compressor-ran-under-vacuum");
  }
  if (record.step === "pressure_test" || record.step === "hold") {
    const then = record.evidence.deviceVerdict;
    if (then !== null && then.verdict !== verdict) codes.push("device-judged-otherwise");
  }
  return codes;
}

/** Whether a step was settled when the entry at `index` was written, by what its author had seen. */
function wasMet(step: StepId, index: number, { ground, records, voidings, skips, overrides }: AlarmGround): boolean {
  const { log } = ground;
  if (skips.allowed.has(step)) return true;
  if (overrides.states.some((one) => one.step === step && one.answer === "granted")) return true;
  return records.some(
    (record) =>
      record.step === step &&
      record.outcome === "passed" &&
      log.before(record.index, index) &&
      !voidings.some(
        (voiding) =>
          voiding.index !== record.index &&
          takesAway(voiding, step, record.index, log) &&
          log.before(record.index, voiding.index) &&
          log.before(voiding.index, index),
      ),
  );
}
