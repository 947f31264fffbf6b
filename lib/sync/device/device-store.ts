import Dexie, { type Table } from "dexie";
import { v4 } from "uuid";
import type { Entry, LogEntry } from "@/lib/hvac/procedure";
import type { CompanyId, EntryId, InstallationId, JobId, PersonId, TraceId } from "@/lib/ids";
import type { Signed } from "../receipt";

/** Whose work on which company this is; the slug is the company in addresses. */
export interface Desk {
  readonly company: CompanyId;
  readonly slug: string;
  readonly person: PersonId;
}

/** Why the server did not take an entry. It stays here, is shown, and is not sent again by itself. */
export interface OutboxProblem {
  readonly code: string;
  readonly message: string;
}

/** An entry that is saved here and not yet acknowledged. `order` is the order of writing on this device. */
export interface OutboxRow extends Desk {
  readonly order?: number;
  readonly id: EntryId;
  readonly job: JobId;
  readonly entry: Entry;
  readonly problem: OutboxProblem | null;
}

/** An entry the server has, as this person was given it. */
export interface LogRow {
  readonly company: CompanyId;
  readonly person: PersonId;
  readonly job: JobId;
  readonly id: EntryId;
  readonly entry: LogEntry;
  /** The server's receipt, where this device sent the entry itself and the answer arrived. */
  readonly signed?: Signed;
}

/** Packed samples of a trace; `sentAt` is null until the server has them. */
export interface ChunkRow extends Desk {
  readonly trace: TraceId;
  readonly index: number;
  readonly job: JobId;
  readonly packed: Uint8Array;
  readonly digest: string;
  readonly sentAt: string | null;
}

/** An answer of the server kept to be read again without it: a day, a job's heading. */
export interface PageRow {
  readonly company: CompanyId;
  readonly person: PersonId;
  readonly name: string;
  readonly fetchedAt: string;
  readonly content: unknown;
}

/** What is being typed and not yet recorded. */
export interface DraftRow {
  readonly company: CompanyId;
  readonly person: PersonId;
  readonly job: JobId;
  readonly name: string;
  readonly content: unknown;
}

interface SequenceRow {
  readonly installation: InstallationId;
  readonly person: PersonId;
  readonly job: JobId;
  readonly last: number;
}

/** Everything the tablet keeps. Rows are read by company and person only, so that two people can share a tablet. */
export class DeviceStore extends Dexie {
  readonly outbox!: Table<OutboxRow, number>;
  readonly log!: Table<LogRow, [string, string, string, string]>;
  readonly sequences!: Table<SequenceRow, [string, string, string]>;
  readonly chunks!: Table<ChunkRow, [string, number]>;
  readonly pages!: Table<PageRow, [string, string, string]>;
  readonly drafts!: Table<DraftRow, [string, string, string, string]>;
  readonly kept!: Table<{ readonly name: string; readonly value: unknown }, string>;

  constructor(name = "dryhold", options: { indexedDB?: IDBFactory; IDBKeyRange?: typeof IDBKeyRange } = {}) {
    super(name, options);
    this.version(1).stores({
      outbox: "++order, &id, [company+person], [company+person+job]",
      log: "[company+person+job+id], [company+person+job]",
      sequences: "[installation+person+job]",
      chunks: "[trace+index], [company+person]",
      pages: "[company+person+name]",
      drafts: "[company+person+job+name]",
      kept: "name",
    });
  }
}

/** The id of this installed copy, made once and kept. */
export async function installationId(store: DeviceStore): Promise<InstallationId> {
  return store.transaction("rw", store.kept, async () => {
    const known = await store.kept.get("installation");
    if (known) return known.value as InstallationId;
    const made = v4() as InstallationId;
    await store.kept.add({ name: "installation", value: made });
    return made;
  });
}

/** Server clock less device clock in milliseconds, as last seen; null while it never was. */
export async function clockOffsetMs(store: DeviceStore): Promise<number | null> {
  return ((await store.kept.get("clock-offset"))?.value as number | undefined) ?? null;
}

/** Notes the server's clock from an answer. The header counts whole seconds: the middle of one is taken. */
export async function noteServerClock(store: DeviceStore, dateHeader: string | null, nowMs: number): Promise<void> {
  const serverMs = Date.parse(dateHeader ?? "");
  if (Number.isNaN(serverMs)) return;
  await store.kept.put({ name: "clock-offset", value: Math.round(serverMs + 500 - nowMs) });
}
