import type { EntryContent, EvidenceOf, JobKindOrUnknown, LogEntry } from "@/lib/hvac/log/entry";
import { JOB_KINDS, type Role, STEP_IDS, type StepId } from "@/lib/hvac/log/step";
import type { EntryId } from "@/lib/ids";
import { circuit, recordOf } from "./evidence-samples";

/** How a random record is meant to turn out; the stand-in judges and the evidence are made to say so. */
export type Meant = "pass" | "fail" | "leak" | "wet" | "wet-leak" | "unproven";

const ids = {
  company: "33333333-3333-4333-8333-333333333333",
  job: "44444444-4444-4444-8444-444444444444",
} as const;
const PEOPLE: readonly { person: string; roles: readonly Role[] }[] = [
  { person: "11111111-1111-4111-8111-111111111111", roles: ["technician"] },
  { person: "11111111-1111-4111-8111-111111111112", roles: ["technician", "dispatcher"] },
  { person: "22222222-2222-4222-8222-222222222222", roles: ["supervisor"] },
];

const leaking = {
  joint: "suction stub",
  method: "bubbles" as const,
  instrument: "soap",
  sensitivityGramPerYear: null,
  result: "leaking" as const,
};

/** Evidence of each step by what it is meant to show, made once: the fold must not change what it reads. */
const EVIDENCE = Object.fromEntries(
  STEP_IDS.map((step) => [
    step,
    Object.fromEntries(
      (["pass", "fail", "leak", "wet", "wet-leak", "unproven"] as const).map((meant) => [
        meant,
        evidenceFor(step, meant),
      ]),
    ),
  ]),
) as Record<StepId, Record<Meant, ReturnType<typeof recordOf>>>;

/** What a step can be meant to show; leaks and water are words of the hold. */
export function meanings(step: StepId): readonly Meant[] {
  if (step === "hold") return ["leak", "wet", "wet-leak", "unproven"];
  if (step === "recover" || step === "pressure_test" || step === "leak_check") return ["fail", "unproven"];
  return ["unproven"];
}

function evidenceFor(step: StepId, meant: Meant) {
  const sweeps = [0, 1].map(() => ({
    pulledToMicron: 1500,
    brokenWith: "nitrogen" as const,
    brokenToKPaAbs: 110,
    heldMinutes: 5,
  }));
  const always: { readonly [S in StepId]?: object } = {
    evacuate: { sweeps },
    records: { recheckDueBy: "2027-01-01" },
    open_repair: { newDrier: "liquid-and-suction" },
  };
  const base = (always[step] ?? {}) as Partial<EvidenceOf<StepId>>;
  if (meant === "pass") return recordOf(step, base as never);
  const names: { readonly [S in StepId]?: Partial<Record<Meant, string>> } = {
    recover: { fail: "not-reached", unproven: "unproven" },
    pressure_test: { fail: "leaking", unproven: "unproven" },
    hold: { leak: "leaking", wet: "wet", "wet-leak": "wet-and-leaking", unproven: "unproven" },
    break_and_charge: { unproven: "too-little" },
    performance: { unproven: "incomplete" },
  };
  const named = names[step]?.[meant];
  if (named) return recordOf(step, { ...base, note: `verdict ${named}` } as never);
  const broken: { readonly [S in StepId]?: object } = {
    make_safe: { lockedOut: false },
    open_repair: { joints: [] },
    leak_check: meant === "fail" ? { joints: [leaking] } : { joints: [] },
    evacuate: { record: { kept: "inline", readings: [{ s: 0, micron: 9000 }] } },
    close: { coresIn: false },
    records: { labelAttached: false },
  };
  return recordOf(step, { ...base, ...broken[step] } as never);
}
export interface RandomLog {
  readonly entries: readonly LogEntry[];
  readonly meant: ReadonlyMap<EntryId, Meant>;
  readonly kind: JobKindOrUnknown;
}

/** Digest stand-in of the property tests: the ids it covers. */
export function idDigest(entries: readonly { readonly id: EntryId }[], heads: readonly EntryId[]): string {
  return `${entries
    .map(({ id }) => id)
    .sort()
    .join()}|${heads.join()}`;
}

/** Any act, and every other time one of those that go wrong in a way that may be overlooked. */
function telling(number: number): number {
  const act = number % 32;
  return act < 8 ? 15 : act < 12 ? 16 : act < 14 ? 20 : act;
}

/**
 * A log made by up to three people on as many tablets that see each other's work only now and then.
 * Each number of `script` is one act; most are the next sensible one, so that many logs get as far as closing.
 */
export function decodeLog(script: readonly number[], style: "alone" | "together"): RandomLog {
  const entries: LogEntry[] = [];
  const meant = new Map<EntryId, Meant>();
  const seen: Set<number>[] = PEOPLE.map(() => new Set<number>());
  const seqs = PEOPLE.map(() => 0);
  let kind: JobKindOrUnknown = "compressor_change";
  let cursor = 0;
  let who = 0;
  const tame = (script[0] ?? 0) % 3 !== 0;

  const headsIn = (view: ReadonlySet<number>): EntryId[] => {
    const named = new Set<EntryId>();
    for (const at of view) for (const id of entries[at]!.heads) named.add(id);
    return [...view]
      .map((at) => entries[at]!.id)
      .filter((id) => !named.has(id))
      .sort();
  };
  const write = (content: EntryContent, by: number, claim = false): LogEntry => {
    const view = seen[by]!;
    const heads = headsIn(view);
    seqs[by]! += 1;
    const tail = ((entries.length * 7919) % 4096).toString(16).padStart(12, "0");
    const entry = {
      id: `0190b8a0-0000-7000-8000-${tail}`,
      ...ids,
      installation: `55555555-5555-4555-8555-00000000000${by}`,
      person: PEOPLE[by]!.person,
      seq: seqs[by]!,
      heads,
      deviceAt: "2026-11-25T08:00:00.000Z",
      clockOffsetMs: null,
      ...content,
      stamp: claim
        ? null
        : { receivedSeq: entries.length + 1, receivedAt: "2026-11-25T08:00:00.000Z", roles: PEOPLE[by]!.roles },
    } as unknown as LogEntry;
    entries.push(entry);
    view.add(entries.length - 1);
    return entry;
  };
  const record = (step: StepId, as: Meant, supersedes?: LogEntry) => {
    const body = EVIDENCE[step][as];
    const why = supersedes ? { supersedes: { entry: supersedes.id, why: "typed wrong" } } : {};
    meant.set(write({ kind: "step-recorded", body, ...why }, who).id, as);
  };
  const lastSeen = (by: number, fits: (entry: LogEntry) => boolean): LogEntry | undefined =>
    [...seen[by]!]
      .sort((a, b) => b - a)
      .map((at) => entries[at]!)
      .find(fits);
  const share = () => {
    for (const view of seen) for (let at = 0; at < entries.length; at += 1) view.add(at);
  };

  /** Asked and granted at once: by a supervisor, by somebody else, or by one the server has not confirmed yet. */
  const override = (step: StepId, pick: number) => {
    const ask = write({ kind: "override-asked", body: { step, why: "asked" } }, who);
    share();
    const by = pick % 3 === 0 ? pick % 2 : 2;
    write({ kind: "override-answered", body: { asks: ask.id, granted: true, why: "seen" } }, by, pick % 7 === 0);
    share();
  };
  let done = false;
  for (const [turn, number] of script.entries()) {
    if (done) break;
    const luck = Math.floor(number / 32);
    const pick = Math.floor(luck / 6);
    // Two logs in three are tame: most of what happens in them is the next step, done and, mostly, seen by all.
    const act = tame && luck % 6 !== 0 ? (style === "together" && pick % 5 === 0 ? 13 : 0) : telling(number);
    if (style === "together" && pick % 7 === 0) who = pick % 3;
    const step = STEP_IDS[cursor % STEP_IDS.length]!;
    if (turn === 0) {
      kind = pick % 4 === 0 ? (JOB_KINDS[pick % JOB_KINDS.length] ?? "unknown") : "compressor_change";
      write({ kind: "job-opened", body: { kind, templateVersion: 1, circuit, criteria: [] } }, who);
      share();
    } else if (act < 15) {
      record(step, "pass");
      cursor += 1;
      if (act < 12) share();
      if (cursor >= STEP_IDS.length && (act % 2 === 0 || pick % 2 === 0)) {
        share();
        closeBy(who);
        done = pick % 4 !== 0;
      }
    } else if (act === 15) {
      // Goes wrong; then, as it happens: left so, corrected away, waved through, or done again at once.
      record(step, meanings(step)[pick % meanings(step).length]!);
      const failed = entries.at(-1)!;
      share();
      const then = pick % 5;
      if (then === 1 || then === 2) record(step, then === 1 ? "pass" : "unproven", failed);
      if (then === 2 || then === 3) override(step, pick);
      if (then === 4) record(step, "pass");
      if (then !== 0) cursor += 1;
      share();
    } else if (act === 16) {
      // Two steps the wrong way round.
      record(STEP_IDS[(cursor + 1) % STEP_IDS.length]!, "pass");
      share();
      record(step, "pass");
      share();
      cursor += 2;
    } else if (act === 17) {
      write({ kind: "circuit-opened", body: { why: "again" } }, who);
      cursor = pick % 2 === 0 ? 1 : Math.min(cursor, 2);
    } else if (act === 18) {
      const target = lastSeen(who, (entry) => entry.kind === "step-recorded");
      if (target?.kind === "step-recorded") record(target.body.step, pick % 2 === 0 ? "pass" : "unproven", target);
    } else if (act < 21) {
      if (act === 20) {
        override(step, pick);
        cursor += 1;
      } else write({ kind: "override-asked", body: { step, why: "asked" } }, who);
      share();
    } else if (act < 24) {
      const by = act === 23 ? pick % 2 : 2;
      const ask = lastSeen(by, (entry) => entry.kind === "override-asked");
      if (ask) {
        write(
          { kind: "override-answered", body: { asks: ask.id, granted: pick % 4 !== 0, why: "seen" } },
          by,
          act === 22 && pick % 2 === 0,
        );
        if (pick % 4 !== 0) cursor += 1;
        share();
      }
    } else if (act === 24) who = pick % 3;
    else if (act === 25) share();
    else if (act < 28) closeBy(who);
    else if (act === 28) {
      const reasons = ["circuit-not-opened", "no-port-touched", "no-refrigerant-in-line-set"] as const;
      const reason = reasons[pick % 3]!;
      const fields = { statement: "seen", sealsIntact: true, capsIntact: true, serviceValvesClosed: true };
      write({ kind: "step-skipped", body: { step, grounds: { reason, ...fields } as never, photos: [] } }, who);
      cursor += 1;
    } else if (act === 29) {
      write(
        { kind: "left-for-today", body: { holding: pick % 2 ? "nitrogen" : "valved-off", tag: "T1", note: "x" } },
        who,
      );
    } else if (act === 30) cursor = pick % STEP_IDS.length;
    else if (pick % 4 === 0) {
      kind = JOB_KINDS[pick % JOB_KINDS.length]!;
      write({ kind: "job-kind-set", body: { jobKind: kind, why: "seen" } }, who);
    } else write({ kind: "note", body: { text: "n", photos: [] } }, who);
  }
  return { entries, meant, kind };

  function closeBy(by: number): void {
    const view = [...seen[by]!].map((at) => entries[at]!);
    const heads = headsIn(seen[by]!);
    if (heads.length > 0) write({ kind: "job-closed", body: { heads, digest: idDigest(view, heads) } }, by);
  }
}
