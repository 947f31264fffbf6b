import canonicalize from "canonicalize";
import { wireOf } from "@/lib/hvac/log/merge";
import type { Entry, LogEntry, Stamp } from "@/lib/hvac/procedure";
import { digestOf } from "./digest";

/** The server's signature under what it received, and the first half of its key's SHA-256 to tell keys apart by. Both in hex. */
export interface Signed {
  readonly key: string;
  readonly signature: string;
}

/**
 * The words a receipt is signed over: this server held an entry with this digest, at this time, in this place of what it received,
 * from an author with these roles. In canonical JSON, so that anyone can write them again from the entry and its stamp.
 * @source RFC 8785 (canonical JSON)
 */
export function receiptText(entry: Entry | LogEntry, stamp: Stamp): string {
  const wire = wireOf(entry);
  return receiptTextOf({ company: wire.company, job: wire.job, id: wire.id, digest: digestOf(wire) }, stamp);
}

/** The same for who has the entry's digest already. */
export function receiptTextOf(
  entry: { readonly company: string; readonly job: string; readonly id: string; readonly digest: string },
  stamp: Stamp,
): string {
  return canonicalize({
    form: "dryhold-receipt-1",
    company: entry.company,
    job: entry.job,
    entry: entry.id,
    digest: entry.digest,
    receivedSeq: stamp.receivedSeq,
    receivedAt: stamp.receivedAt,
    roles: stamp.roles,
  })!;
}
