import type { Entry, LogEntry } from "@/lib/hvac/procedure";
import type { AttachmentId, CompanyId, EntryId, InstallationId, JobId, PersonId, TraceId } from "@/lib/ids";
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

/** A photo or signature; `sentAt` is null until the server has it. */
export interface PictureRow extends Desk {
  readonly id: AttachmentId;
  readonly job: JobId;
  readonly salt: Uint8Array<ArrayBuffer>;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Of salt and picture together, in hex: how an entry names it. */
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

export interface SequenceRow {
  readonly installation: InstallationId;
  readonly person: PersonId;
  readonly job: JobId;
  readonly last: number;
}

export interface KeptRow {
  readonly name: string;
  readonly value: unknown;
}

/** A row of someone who has signed out, which only a key from the server opens. */
export interface LockedRow {
  readonly number?: number;
  readonly company: CompanyId;
  readonly person: PersonId;
  readonly iv: Uint8Array<ArrayBuffer>;
  readonly sealed: ArrayBuffer;
}

export interface Rows {
  readonly outbox: OutboxRow;
  readonly log: LogRow;
  readonly sequences: SequenceRow;
  readonly chunks: ChunkRow;
  readonly pictures: PictureRow;
  readonly pages: PageRow;
  readonly drafts: DraftRow;
  readonly kept: KeptRow;
  readonly locked: LockedRow;
}
export type StoreName = keyof Rows;
export type Row = Rows[StoreName];
