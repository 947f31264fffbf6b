import { listEntries } from "@/lib/db/entries";
import { refreshJob } from "@/lib/db/job-summary";
import type { TenantTx } from "@/lib/db/tenant";
import { readTraces } from "@/lib/db/traces";
import { keyOrderFree } from "@/lib/hvac/log/merge";
import { chainOf, type Entry, foldJob, judgeProof, type LogEntry, proofFacts, wireOf } from "@/lib/hvac/procedure";
import type { JobId, TraceId } from "@/lib/ids";
import { closingDigest, digestOf } from "@/lib/sync/digest";
import { rememberedJudges } from "@/lib/sync/remembered-judges";
import { type KnownTrace, traceDigest, traceShelf } from "@/lib/sync/trace";
import type { Crew } from "./crew";
import type { RunRecord } from "./play-run";

/**
 * What a run broke: an entry that was called saved and is nowhere, one that is there twice, a log that is not what was written,
 * or a device or the server's own lists that see another job than the log folds to. Empty when everything held.
 */
export async function listViolations(crew: Crew, run: RunRecord) {
  const server = await crew.inCompany((tx) => readServer(tx, run.job));
  const violations: string[] = [];
  const say = (text: string) => violations.push(text);
  const received = new Map(server.entries.map((entry) => [entry.id, entry]));
  const quarantined = new Map(server.quarantined.map((entry) => [entry.id, entry]));

  for (const [id, entry] of run.saved) {
    const there = received.get(id);
    const aside = quarantined.get(id);
    if (!there && !aside) say(`lost: ${entry.kind} ${entry.seq} ${tokenOf(entry)}`);
    if (there && digestOf(wireOf(there)) !== digestOf(entry)) say(`changed on the way: ${id}`);
    if (!there && aside && digestOf(aside) !== digestOf(entry)) say(`changed in quarantine: ${id}`);
  }
  if (received.size !== server.entries.length) say("one id twice in the log");
  const tokens = new Set<string>();
  for (const entry of server.entries) {
    const token = tokenOf(entry);
    if (token === null) continue;
    if (tokens.has(token)) say(`doubled: ${token}`);
    tokens.add(token);
  }
  for (const { traceId, digest, person } of run.savedTraces) {
    const there = server.traceDigests.get(traceId);
    // Readings of who left wait on the tablet; the entry that names them is in quarantine.
    if (there !== digest && !run.gone.has(person)) say(`trace lost or changed: ${traceId}`);
  }
  for (const [chain, seqs] of chainsOf(server.entries)) {
    if (new Set(seqs).size !== seqs.length) say(`a sequence number twice in ${chain}`);
    const aside = server.quarantined.some((entry) => chainOf(entry) === chain);
    if (!aside && seqs.some((seq, at) => at > 0 && seq < seqs[at - 1]!)) say(`out of order in ${chain}: ${seqs}`);
  }

  const folded = foldOf(server.entries, server.traces);
  if (server.summaryBefore !== server.summaryAfter)
    say(`the server's lists show another job than its log: ${server.summaryBefore} | ${server.summaryAfter}`);
  for (const [at, device] of run.devices.entries()) {
    const held = await device.held();
    if (run.gone.has(device.person)) continue;
    if (held.waiting > 0) say(`device ${at} still has ${held.waiting} to send`);
    for (const id of held.problems)
      if (!quarantined.has(id)) say(`device ${at} shows a problem nobody else sees: ${id}`);
    const folds = foldOf(held.entries, held.traces);
    if (folds !== folded) say(`device ${at} folds to another job than the server: ${firstDifference(folds, folded)}`);
  }
  return { received: received.size, quarantined: quarantined.size, violations };
}

async function readServer(tx: TenantTx, job: JobId) {
  const entries = await listEntries(tx, job);
  const traces = await readTraces(tx, job);
  const rows = await tx.quarantine.findMany({ where: { raw: { contains: job } }, select: { raw: true } });
  const summaryBefore = await summaryOf(tx, job);
  await refreshJob(tx, job);
  return {
    entries,
    traces,
    quarantined: rows.flatMap(({ raw }): Entry[] => [JSON.parse(raw)]),
    traceDigests: new Map([...traces].map(([id, { chunkDigests }]) => [id, traceDigest(chunkDigests)])),
    summaryBefore,
    summaryAfter: await summaryOf(tx, job),
  };
}

async function summaryOf(tx: TenantTx, id: JobId): Promise<string> {
  const select = { state: true, strength: true, asksOverride: true, summary: true };
  return digestOf(await tx.circuitJob.findFirst({ where: { id }, select }));
}

/** Everything the fold says of the log, as text to compare. */
function foldOf(entries: readonly LogEntry[], traces: ReadonlyMap<TraceId, KnownTrace>): string {
  const state = foldJob(entries, { judges: rememberedJudges, closingDigest, traces: traceShelf(traces) });
  return keyOrderFree([state, judgeProof(proofFacts(state, entries)), [...entries].map(({ id }) => id).sort()]);
}

function firstDifference(here: string, there: string): string {
  const at = [...here].findIndex((letter, index) => letter !== there[index]);
  return `${here.slice(Math.max(at - 60, 0), at + 60)} | ${there.slice(Math.max(at - 60, 0), at + 60)}`;
}

function chainsOf(entries: readonly LogEntry[]): Map<string, number[]> {
  const chains = new Map<string, number[]>();
  for (const entry of entries) chains.set(chainOf(entry), [...(chains.get(chainOf(entry)) ?? []), entry.seq]);
  return chains;
}

function tokenOf(entry: Entry): string | null {
  return /act \d+-\d+/.exec(JSON.stringify(entry))?.[0] ?? null;
}
