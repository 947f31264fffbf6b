import type { EntryContent, LogEntry, TraceReference } from "@/lib/hvac/procedure";
import { STEP_IDS } from "@/lib/hvac/procedure";
import { closingDigest } from "@/lib/sync/digest";
import type { TraceSample } from "@/lib/sync/trace-chunk";
import { recordOf } from "../hvac/procedure/evidence-samples";
import type { ContentOnLog } from "./field-device";
import type { Seeded } from "./seeded";

const KINDS = {
  note: 22,
  "next-step": 46,
  "any-step": 6,
  correction: 6,
  "override-asked": 6,
  "override-answered": 2,
  "circuit-opened": 2,
  "kind-set": 2,
  left: 3,
  resumed: 2,
  closed: 5,
} as const;

/** What a technician writes next, `token` standing somewhere in its words so that the act is known again whatever its id. */
export function randomContent(chance: Seeded, token: string): ContentOnLog {
  const kind = chance.weighted(KINDS);
  const luck = chance.fraction();
  return (seen, heads) => contentOf(kind, luck, token, seen, heads);
}

function contentOf(
  kind: keyof typeof KINDS,
  luck: number,
  token: string,
  seen: readonly LogEntry[],
  heads: readonly LogEntry["id"][],
): EntryContent {
  const of = <T>(items: readonly T[]): T | undefined => items[Math.floor(luck * items.length)];
  const records = seen.flatMap((entry) => (entry.kind === "step-recorded" ? [entry] : []));
  switch (kind) {
    case "next-step":
    case "any-step": {
      const done = new Set(records.map(({ body }) => body.step));
      const next = STEP_IDS.find((step) => !done.has(step));
      return stepOf((kind === "next-step" ? next : undefined) ?? of(STEP_IDS)!, token);
    }
    case "correction": {
      const old = of(records);
      if (!old) break;
      return { ...stepOf(old.body.step, token), supersedes: { entry: old.id, why: token } };
    }
    case "override-asked":
      return { kind: "override-asked", body: { step: of(STEP_IDS)!, why: token } };
    case "override-answered": {
      const ask = of(seen.filter((entry) => entry.kind === "override-asked"));
      if (!ask) break;
      return { kind: "override-answered", body: { asks: ask.id, granted: luck < 0.5, why: token } };
    }
    case "circuit-opened":
      return { kind: "circuit-opened", body: { why: token } };
    case "kind-set":
      return { kind: "job-kind-set", body: { jobKind: luck < 0.5 ? "compressor_change" : "leak_repair", why: token } };
    case "left":
      return { kind: "left-for-today", body: { holding: "nitrogen", tag: "tagged", note: token } };
    case "resumed":
      return { kind: "work-resumed", body: { note: token } };
    case "closed":
      if (heads.length === 0) break;
      return { kind: "job-closed", body: { heads: [...heads], digest: closingDigest(seen, heads) } };
    case "note":
      break;
  }
  return { kind: "note", body: { text: token, photos: [] } };
}

function stepOf(step: (typeof STEP_IDS)[number], token: string): EntryContent {
  return { kind: "step-recorded", body: recordOf(step, { note: token } as never) };
}

/** A hold judged from a trace that goes its own way to the server. */
export function holdFrom(trace: TraceReference, token: string): ContentOnLog {
  return () => ({
    kind: "step-recorded",
    body: recordOf("hold", { record: { kept: "trace", trace }, source: "bluetooth", note: token } as never),
  });
}

/** A quiet gauge, a sample every ten seconds. */
export function quietHold(chance: Seeded): TraceSample[] {
  const from = chance.pick([290, 340, 380]); // few, so that each is judged once in a process
  return Array.from({ length: 61 }, (_, n) => ({
    atMs: 1_764_000_000_000 + n * 10_000,
    value: from + Math.round(6 * (1 - Math.exp(-n / 20))),
  }));
}

/** What the office does to the job meanwhile: answers, other criteria, another kind of job, a word. */
export function randomOfficeContent(chance: Seeded, token: string, seen: readonly LogEntry[]): EntryContent {
  const asks = seen.filter((entry) => entry.kind === "override-asked");
  switch (chance.weighted({ answer: asks.length > 0 ? 4 : 0, criteria: 2, kind: 2, note: 1 })) {
    case "answer":
      return {
        kind: "override-answered",
        body: { asks: chance.pick(asks).id, granted: chance.chance(0.6), why: token },
      };
    case "criteria":
      return {
        kind: "criteria-replaced",
        body: { row: CRITERIA, document: token },
      };
    case "kind":
      return {
        kind: "job-kind-set",
        body: { jobKind: chance.pick(["compressor_change", "leak_repair", "opened_wet_burnout"]), why: token },
      };
    case "note":
      return { kind: "note", body: { text: token, photos: [] } };
  }
}

const CRITERIA = {
  rowId: "tighter-hold",
  origin: "maker",
  source: "invented instruction of the maker",
  criteria: {
    step: "hold",
    values: {
      targetMicron: 400,
      holdMinutes: 15,
      maxFinalMicron: 450,
      maxSteadyRiseMicronPerMin: 5,
      failAtMicron: null,
    },
  },
} as const;
