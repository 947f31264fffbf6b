import type { StepId } from "../log/step";

/* Every sentence the procedure says, by its code: short, and saying what to do. */

const STEP_NAMES: Readonly<Record<StepId, string>> = {
  make_safe: "Make safe",
  recover: "Recovery",
  open_repair: "Open and repair",
  pressure_test: "Pressure test",
  leak_check: "Leak check",
  evacuate: "Evacuation",
  hold: "Isolated hold",
  break_and_charge: "Break vacuum and charge",
  close: "Cores and caps",
  performance: "Performance check",
  records: "Records",
};
export function stepName(step: StepId): string {
  return STEP_NAMES[step];
}

const MISSING = {
  "job-not-opened": "The job has no opening entry: open it with its circuit.",
  "kind-unknown": "Say what kind of job this is.",
  "kind-contradicted": "The circuit was opened, so this kind of job cannot be true: set the kind that fits.",
  "template-unknown": "This job was opened with a newer program: update this one.",
  "entries-awaited": "Entries of this job have not arrived yet: wait for the other tablet to send.",
  "order-impossible": "Some entries cannot be put in order: ask your supervisor.",
  "needs-review": "Two entries contradict each other: look at both and record the step again.",
  "not-recorded": "not recorded yet.",
  failed: "failed, follow the next action.",
  "not-proven": "recorded but not proven.",
  invalidated: "no longer counts, record it again.",
  "before-its-turn": "recorded before the step it rests on was settled, record it again.",
  "override-waits": "waits for a supervisor's answer.",
  "test-corrected-away": "The failed test was corrected, not repeated: do it again.",
  "corrections-contested": "Two corrections were written side by side: correct the entry once more.",
} as const;
export type MissingCode = keyof typeof MISSING;
const WHOLE_SENTENCES = /^[A-Z]/;
export function missingText(code: MissingCode, step: StepId | null): string {
  const words = MISSING[code];
  return step === null || WHOLE_SENTENCES.test(words) ? words : `${stepName(step)}: ${words}`;
}

const VOID = {
  "circuit-opened": "The circuit was opened after it.",
  "opened-for-repair": "Repair work was done on the circuit after it.",
  "tightness-test-failed": "A later tightness test failed.",
  "hold-showed-leak": "A later hold showed a leak.",
  "hold-showed-water": "A later hold showed water.",
  "vacuum-lost": "The vacuum was broken after it.",
} as const;
export type VoidCode = keyof typeof VOID;
export function voidText(code: VoidCode): string {
  return VOID[code];
}

const REVIEW = {
  "order-unknown":
    "These were written side by side; whether the proof still stands cannot be told. Record the step again.",
  "records-disagree": "Two records of this step were written side by side and disagree. Record the step again.",
  "job-opened-contested": "The job was opened twice with different facts. Correct one opening entry.",
  "kind-contested": "Two kinds of job were set side by side. Set the kind again.",
  "refrigerant-contested": "Two different refrigerants were identified side by side. Identify it again.",
  "criteria-contested": "Two different criteria were entered side by side. Enter the right one again.",
  "corrections-contested": "Two corrections of one entry were written side by side. Correct it once more.",
  "id-used-twice": "Two different entries carry one id. Ask your supervisor which one is true.",
} as const;
export type ReviewCode = keyof typeof REVIEW;
export function reviewText(code: ReviewCode): string {
  return REVIEW[code];
}

const ALARM = {
  "opened-before-recovery": "The circuit was opened before the recovery level was reached.",
  "evacuated-before-tests": "The circuit was evacuated before both tightness tests had passed.",
  "charged-before-hold": "Refrigerant went in before a hold had passed.",
  "recorded-out-of-order": "A step was recorded before the one it rests on.",
  "over-pressure": "The test pressure went above the limit of the weakest part: have that part checked.",
  "wrong-test-gas": "A gas other than nitrogen was used under pressure.",
  "vacuum-broken-to-air": "The vacuum was broken to air.",
  "compressor-ran-under-vacuum": "The compressor was powered under vacuum.",
  "kind-contradicted": "A kind of job without opening was set, but the circuit was opened.",
  "sequence-forked": "One tablet gave a sequence number twice.",
  "entry-after-close": "This came after the job was closed; the certificate is stale.",
  "device-judged-otherwise": "The tablet's verdict at the time and this one differ; both are kept.",
} as const;
export type AlarmCode = keyof typeof ALARM;
export function alarmText(code: AlarmCode): string {
  return ALARM[code];
}

const NO_EFFECT = {
  "job-already-opened": "The job had been opened before.",
  "correction-target-missing": "What it corrects is not in the log.",
  "correction-target-unseen": "Its author had not seen what it corrects.",
  "correction-of-other-kind": "It is about something else than what it corrects.",
  "not-correctable": "What happened cannot be corrected away.",
  "raw-readings-stay": "Readings from an instrument are never replaced: record the test again.",
  "order-impossible": "It claims to have been seen by what it has seen.",
  "criteria-not-allowed": "Only a maker's instruction or a company's tightening can be entered on a job.",
  "skip-not-allowed": "This kind of job does not allow the step to be left out on these grounds.",
  "skip-contradicted": "The log shows that the step was needed or done.",
  "ask-not-allowed": "This step can never be overridden.",
  "override-barred": "A failed tightness test cannot be overridden: repair, then test again.",
  "override-overtaken": "What happened after the question takes the answer away.",
  "answer-waits": "The answer counts once the server has confirmed who gave it.",
  "answer-not-supervisor": "Only a supervisor's answer counts.",
  "answer-to-nothing": "It answers no question in this log that its author had seen.",
  "close-not-proven": "The job was not proven when this was written.",
  "close-heads-differ": "It does not close on the latest entries it had seen.",
  "close-digest-differs": "Its digest does not match the entries.",
} as const;
export type NoEffectCode = keyof typeof NO_EFFECT;
export function noEffectText(code: NoEffectCode): string {
  return NO_EFFECT[code];
}

const NEXT = {
  "open-job": "Open the job with its circuit.",
  "wait-for-entries": "Wait until the missing entries have arrived.",
  "set-kind": "Say what kind of job this is.",
  "settle-review": "Two entries contradict each other. Look at both and enter the right one again.",
  "do-step": "Do this step now.",
  "complete-step": "Complete this step; what is missing stands below.",
  "repeat-step": "Repeat this step.",
  "repair-leak": "Release the nitrogen, find and repair the leak, then test again.",
  "find-leak": "Prove your own hoses and valve first, then look for the leak under nitrogen.",
  "dry-again": "Sweep with nitrogen and evacuate three times, then hold again.",
  "wait-for-supervisor": "Wait for the supervisor's answer, or do the step.",
  "close-job": "Close the job.",
  none: "Nothing is left to do.",
} as const;
export type NextCode = keyof typeof NEXT;
export function nextText(code: NextCode): string {
  return NEXT[code];
}
