export type { KnownTrace } from "../trace";
export { findPaperLink, keepPaperLink, listOwedLinks, type PaperLink } from "./certificate-links";
export { diskTrouble, isStorageFull } from "./device-disk";
export { browserLocks, type DeviceLocks, pageLocks } from "./device-lock";
export type { ChunkRow, Desk, OutboxProblem, OutboxRow, StoreName } from "./device-rows";
export { DeviceStore } from "./device-store";
export { type FetchOutcome, fetchLog, fetchPage } from "./fetch-log";
export { fetchTraces, listTraces } from "./fetch-traces";
export { keepAhead } from "./keep-ahead";
export { chunkDigest, keepTrace, traceOfChunks } from "./keep-trace";
export { endLiveTrace, keepTail, type LiveTrace } from "./live-trace";
export { countOutbox, listProblems, type OutboxCount } from "./outbox";
export { dropPicture, findPicture, keepPicture, type PictureReference } from "./pictures";
export { type Ask, type SendOutcome, sendOwed } from "./send";
export { Sender, type SenderState } from "./sender";
export {
  askWho,
  canLock,
  confirmPerson,
  keptPerson,
  lastSlug,
  type Standing,
  signOutHere,
  type TabletPerson,
} from "./who";
export { listJobEntries, writeEntry } from "./write-entry";
