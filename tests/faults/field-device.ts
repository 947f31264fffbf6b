import type { Entry, EntryContent, LogEntry, TraceReference } from "@/lib/hvac/procedure";
import type { EntryId, PersonId, TraceId } from "@/lib/ids";
import type { KnownTrace } from "@/lib/sync/trace";
import type { TraceSample } from "@/lib/sync/trace-chunk";

export type ContentOnLog = (seen: readonly LogEntry[], heads: readonly EntryId[]) => EntryContent;

/** What a device holds of the job, for comparing. */
export interface Held {
  readonly entries: readonly LogEntry[];
  readonly waiting: number;
  /** Ids of entries the server answered with a problem. */
  readonly problems: readonly EntryId[];
  readonly traces: ReadonlyMap<TraceId, KnownTrace>;
}

/** A tablet in the field: what its person can do with it, and what can happen to it. A call that resolves has saved what it says. */
export interface FieldDevice {
  readonly person: PersonId;
  write(content: ContentOnLog, nowMs: number): Promise<Entry>;
  keepTrace(samples: readonly TraceSample[]): Promise<TraceReference>;
  /** One round of sending; how it ended. */
  send(nowMs: number): Promise<string>;
  /** Fetches what the server has received; how it ended. */
  fetch(nowMs: number): Promise<string>;
  /** Ends the program wherever it is and starts it again: what was not on disk is gone. */
  kill(): Promise<void>;
  setFull(full: boolean): void;
  held(): Promise<Held>;
  end(): Promise<void>;
}
