import type { CertificateSource } from "@/lib/certificate";
import type { Entry, EntryContent, LogEntry } from "@/lib/hvac/procedure";
import { foldJob, judgeProof, proofFacts, TEMPLATE_VERSION } from "@/lib/hvac/procedure";
import { CompanyId, EntryId, InstallationId, JobId, PersonId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { headsOf, makeEntry, nextSeq, stamped, wireOf } from "@/lib/sync/protocol";
import { rememberedJudges } from "@/lib/sync/remembered-judges";
import { afterHold, hold, upToEvacuation } from "@/prisma/demo/evidence";

// The demo's closed job, an invented compressor change, with ids and clock of its own so that every run sees the same log.

const startMs = Date.UTC(2026, 9, 16, 13, 0);
const person = PersonId.parse("00000000-0000-4000-8000-00000000000a");
const supervisor = PersonId.parse("00000000-0000-4000-8000-00000000000b");
const author = {
  company: CompanyId.parse("00000000-0000-4000-8000-000000000001"),
  job: JobId.parse("00000000-0000-4000-8000-000000000002"),
  installation: InstallationId.parse("00000000-0000-4000-8000-000000000003"),
  person,
};

const opened: EntryContent = {
  kind: "job-opened",
  body: {
    kind: "compressor_change",
    templateVersion: TEMPLATE_VERSION,
    circuit: {
      refrigerant: { state: "identified", refrigerant: "R-410A", safetyClass: "A1", pressureClass: "very-high" },
      fullChargeKg: 3.4,
      internalVolume: { litres: 12.4, from: "estimated" },
      lowSideDesignKPaGauge: 1724,
      highSideDesignKPaGauge: 3275,
      lineSet: { lengthM: 9.1, liquidOuterDiameterMm: 9.53, suctionOuterDiameterMm: 19.05 },
      applianceClass: "appliance",
      appliance: { use: "comfort-cooling", leakRulesApply: false },
    },
    criteria: [],
  },
};

/** Writes the contents one after the other, twenty minutes apart; what a function gives is made over the log so far. */
export function writeLog(contents: readonly (EntryContent | "close" | ((log: readonly LogEntry[]) => EntryContent))[]) {
  const log: LogEntry[] = [];
  for (const [index, given] of contents.entries()) {
    const heads = headsOf(log);
    const content = given === "close" ? closing(log) : typeof given === "function" ? given(log) : given;
    const by = content.kind === "override-answered" ? supervisor : person;
    const writing = {
      id: EntryId.parse(`00000000-0000-7000-8000-${String(index).padStart(12, "0")}`),
      seq: nextSeq(log, { ...author, person: by }),
      heads,
      deviceAt: new Date(startMs + index * 20 * 60_000).toISOString(),
      clockOffsetMs: 0,
    };
    const roles = [by === supervisor ? ("supervisor" as const) : ("technician" as const)];
    const stamp = { receivedSeq: index + 1, receivedAt: writing.deviceAt, roles };
    log.push(stamped(makeEntry({ ...author, person: by }, writing, content), stamp));
  }
  return log;
}

function closing(log: readonly LogEntry[]): EntryContent {
  const heads = headsOf(log);
  return { kind: "job-closed", body: { heads, digest: closingDigest(log.map(wireOf), heads) } };
}

/** The whole compressor change, proven and closed. */
export const demoLog = () =>
  writeLog([opened, ...upToEvacuation(new Date(startMs)), hold(181, 310, 160, 260), ...afterHold(person)]);

/** The same with a hold cut short, allowed by a supervisor. */
export const overriddenLog = () =>
  writeLog([
    opened,
    ...upToEvacuation(new Date(startMs)),
    hold(49, 330, 260, 240),
    {
      kind: "override-asked",
      body: { step: "hold", why: "The shop opens in ten minutes; the reading was flattening." },
    },
    (log) => ({
      kind: "override-answered",
      body: { asks: log.at(-1)!.id, granted: true, why: "Seen the readings; recheck within a week." },
    }),
    ...afterHold(person),
  ]);

export function sourceOf(log: readonly LogEntry[]): CertificateSource {
  const state = foldJob(log, { judges: rememberedJudges, closingDigest, traces: new Map() });
  return {
    companyName: "Fernhollow Cooling (invented)",
    job: {
      number: 1002,
      customer: "Willowbend Dental",
      site: { name: "Practice", street: "14 Orchard Row", city: "Millford", timeZone: "America/Chicago" },
      unit: {
        name: "Rooftop 1",
        maker: "invented maker",
        model: "RT-060",
        serial: "W1-0061",
        place: "Roof, north side",
      },
      circuitName: "Circuit 1",
    },
    names: new Map([
      [person, "Tomas Reedley"],
      [supervisor, "Marek Holtby"],
    ]),
    entries: log,
    traces: new Map(),
    state,
    proof: judgeProof(proofFacts(state, log)),
    checkUrl: "https://dryhold.example/check/abcdefghijklmnopqrstuvwxyz0123456789_-ABCDE",
  };
}

/** One entry altered behind the log's back. */
export function alter(log: readonly LogEntry[], id: string, change: (entry: Entry) => void): LogEntry[] {
  return log.map((entry) => {
    if (entry.id !== id) return entry;
    const copy = structuredClone(entry) as LogEntry;
    change(copy);
    return copy;
  });
}
