import type { LogItem } from "../log/corrections";
import { STEP_IDS, type StepId } from "../log/step";
import type { JobGround } from "./job-ground";
import type { JudgedRecord } from "./judged-records";
import type { OverridesRead } from "./overrides";
import type { Standing, StandingReader } from "./standing";
import type { Invalidation, Missing, Review, StepState, StepStatus } from "./state";
import { type MissingCode, missingText, reviewText, voidText } from "./words";

/** All that has been read of the log when the steps are summed up. */
export interface StepsGround {
  readonly ground: JobGround;
  readonly records: readonly JudgedRecord[];
  readonly skips: ReadonlyMap<StepId, readonly LogItem[]>;
  readonly overrides: OverridesRead;
  readonly standing: StandingReader;
}
export interface StepsRead {
  readonly steps: readonly StepState[];
  readonly openStep: StepId | null;
  readonly reviews: readonly Review[];
}

/** Where each step stands, and which one is open: the first unsettled one whose needs are settled. */
export function readSteps(read: StepsGround): StepsRead {
  const summed = STEP_IDS.map((step) => sumUp(step, read));
  const settled = new Set(summed.filter(({ state }) => state.settledBy !== null).map(({ state }) => state.step));
  const open = summed.find(
    ({ state }) =>
      !settled.has(state.step) && read.ground.template.steps[state.step].needs.every((need) => settled.has(need)),
  );
  const openStep = open?.state.step ?? null;
  const steps = summed.map(({ state }) =>
    state.status === "waiting" && state.step === openStep ? { ...state, status: "working" as const } : state,
  );
  return { steps, openStep, reviews: summed.flatMap(({ review }) => (review ? [review] : [])) };
}

interface Summed {
  readonly state: StepState;
  readonly review: Review | null;
}
interface Placed {
  readonly record: JudgedRecord;
  readonly standing: Standing;
}

function sumUp(step: StepId, read: StepsGround): Summed {
  const { ground, records, standing, skips, overrides } = read;
  const placed: Placed[] = [];
  for (const record of records) if (record.step === step) placed.push({ record, standing: standing.of(record) });
  const live = placed.filter(({ standing: { at } }) => at !== "void");
  const latest = live.filter(
    ({ record }) => !live.some((other) => ground.log.before(record.index, other.record.index)),
  );
  const deciding = latest.at(-1)?.record ?? null;
  const invalidated = placed.flatMap(invalidationOf);
  const override = overrideOf(step, read);
  const skip = (skips.get(step) ?? []).find((one) => standing.ofSkip(one, step).at === "stands");
  const base = {
    step,
    need: ground.template.steps[step].skipReasons.length > 0 ? ("skippable" as const) : ("required" as const),
    entry: deciding?.item.current.id ?? null,
    verdict: deciding?.verdict ?? null,
    invalidated,
    override,
    missing: [],
  };
  if (latest.length > 0 && latest.every(isProof)) {
    return { state: { ...base, status: "proven", settledBy: "record" }, review: null };
  }
  if (skip) {
    return { state: { ...base, status: "proven", settledBy: "skip", entry: skip.current.id }, review: null };
  }
  const granted = overrides.granted.find((one) => one.step === step);
  if (granted) {
    const entry = deciding ? base.entry : granted.ask;
    return { state: { ...base, status: "cannot-say", settledBy: "override", entry }, review: null };
  }
  const { status, missing, review } = unsettled(step, latest, invalidated, read);
  const waits = override === "asked" && review === null && overrides.barOf(step) === null;
  const all = waits ? [...missing, lack("override-waits", step)] : missing;
  return { state: { ...base, status: waits ? "needs-you" : status, settledBy: null, missing: all }, review };
}

function isProof({ record, standing }: Placed): boolean {
  return record.outcome === "passed" && standing.at === "stands";
}

function unsettled(
  step: StepId,
  latest: readonly Placed[],
  invalidated: readonly Invalidation[],
  read: StepsGround,
): { status: StepStatus; missing: Missing[]; review: Review | null } {
  if (latest.length === 0) {
    const code = invalidated.length > 0 ? "invalidated" : "not-recorded";
    return { status: "waiting", missing: [lack(code, step)], review: null };
  }
  const disagreeing = latest.some(isProof);
  const besides = latest.filter(
    ({ record, standing }) => record.outcome === "passed" && standing.at === "order-unknown",
  );
  const contested = latest.some(({ record }) => record.item.contested);
  if (disagreeing || besides.length > 0 || contested) {
    const code = disagreeing ? "records-disagree" : besides.length > 0 ? "order-unknown" : "corrections-contested";
    const entries = [...latest.map(({ record }) => record.item.current.id), ...besideEntries(besides, read.ground)];
    const review: Review = { code, step, entries: [...new Set(entries)].sort(), text: reviewText(code) };
    return { status: "needs-you", missing: [{ code: "needs-review", step, text: review.text }], review };
  }
  const failed = latest.filter(({ record }) => record.outcome === "failed");
  if (failed.length > 0) {
    const missing = [lack("failed", step), ...failed.flatMap(({ record }) => reasonsOf(record))];
    return {
      status: failed.some(({ record }) => !isRenewed(record, read)) ? "refused" : "waiting",
      missing,
      review: null,
    };
  }
  const early = latest.some(({ record, standing }) => record.outcome === "passed" && standing.at === "early");
  const missing = [
    ...(early ? [lack("before-its-turn", step)] : [lack("not-proven", step)]),
    ...latest.flatMap(({ record }) => (record.outcome === "unproven" ? reasonsOf(record) : [])),
  ];
  return { status: "cannot-say", missing, review: null };
}

/** After a failure the step waits for its turn again once what it rests on has been done anew. */
function isRenewed(record: JudgedRecord, { ground, records, standing }: StepsGround): boolean {
  const { needs } = ground.template.steps[record.step];
  return (
    needs.length > 0 &&
    needs.every((need) =>
      records.some(
        (other) =>
          other.step === need &&
          ground.log.before(record.index, other.index) &&
          isProof({ record: other, standing: standing.of(other) }),
      ),
    )
  );
}

function invalidationOf({ record, standing }: Placed): Invalidation[] {
  if (standing.at !== "void") return [];
  const { code, entry } = standing.by;
  return [{ entry: record.item.current.id, by: entry, code, text: voidText(code) }];
}

function besideEntries(besides: readonly Placed[], { log }: JobGround) {
  return besides.flatMap(({ standing }) => {
    const entry = standing.at === "order-unknown" ? log.entries[standing.beside] : undefined;
    return entry ? [entry.id] : [];
  });
}

function reasonsOf({ verdict, step }: JudgedRecord): Missing[] {
  return verdict.reasons.map(({ code, text }) => ({ code, step, text }));
}

function lack(code: MissingCode, step: StepId): Missing {
  return { code, step, text: missingText(code, step) };
}

function overrideOf(step: StepId, { overrides }: StepsGround): StepState["override"] {
  if (overrides.granted.some((one) => one.step === step)) return "granted";
  const bar = overrides.barOf(step);
  if (bar !== null) return bar === "ask-not-allowed" ? "not-allowed" : "barred";
  const asked = overrides.states.filter((one) => one.step === step);
  if (asked.some(({ answer }) => answer === "none" || answer === "contested")) return "asked";
  return asked.at(-1)?.answer === "refused" ? "refused" : "may-ask";
}
