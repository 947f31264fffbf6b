export type { KnownTrace } from "../trace";
export { browserLocks, type DeviceLocks, pageLocks } from "./device-lock";
export {
  type ChunkRow,
  type Desk,
  DeviceStore,
  type OutboxProblem,
  type OutboxRow,
} from "./device-store";
export { type FetchOutcome, fetchLog, fetchPage } from "./fetch-log";
export { chunkDigest, keepTrace, traceOfChunks } from "./keep-trace";
export { countOutbox, listProblems, type OutboxCount } from "./outbox";
export { type Ask, type SendOutcome, sendOwed } from "./send";
export { Sender, type SenderState } from "./sender";
export { listJobEntries, writeEntry } from "./write-entry";
