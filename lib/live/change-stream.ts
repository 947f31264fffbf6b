import "server-only";
import type { Subscriber } from "./change-listener";

const HEARTBEAT_MS = 20_000;
const RECONNECT_MS = 3_000;
/** Events a slow reader may be behind before it is told to ask for everything instead. */
const MOST_WAITING = 32;

export interface ChangeStreamRequest {
  /** Begins to be told; the answer ends it. */
  readonly follow: (subscriber: Subscriber) => () => void;
  /** Asked at every heartbeat: whether the reader may still be told. */
  readonly mayFollow: () => Promise<boolean>;
  /** Whether the reader had a stream before: what was told meanwhile is gone. */
  readonly isBack: boolean;
  readonly signal: AbortSignal;
  readonly heartbeatMs?: number;
}

/**
 * Changes as server-sent events. A reader that cannot keep up gets one `missed` in place of what it could not take, and is let go
 * when it has taken nothing for two heartbeats. Ends when the reader goes, loses its rights, or the process ends.
 * @source WHATWG HTML, section 9.2 (server-sent events)
 */
export function changeStream(request: ChangeStreamRequest): ReadableStream<Uint8Array> {
  const { follow, mayFollow, isBack, signal, heartbeatMs = HEARTBEAT_MS } = request;
  const encoder = new TextEncoder();
  let end = () => {};
  let onRoom = () => {};
  return new ReadableStream<Uint8Array>(
    {
      start(stream) {
        let count = 0;
        let isBehind = false;
        let silentBeats = 0;
        const write = (text: string) => stream.enqueue(encoder.encode(text));
        const hasRoom = () => (stream.desiredSize ?? 0) > 0;
        const tell: Subscriber = (told) => {
          if (isBehind || !hasRoom()) isBehind = true;
          else if (told === "missed") write(`id: ${++count}\nevent: missed\ndata: {}\n\n`);
          else write(`id: ${++count}\nevent: change\ndata: ${JSON.stringify(told)}\n\n`);
        };
        onRoom = () => {
          silentBeats = 0;
          if (!isBehind || !hasRoom()) return;
          isBehind = false;
          tell("missed");
        };
        const beat = async () => {
          if (!hasRoom() && ++silentBeats >= 2) return end();
          if (!(await mayFollow().catch(() => false))) return end();
          if (!isEnded && hasRoom()) write(": still here\n\n");
        };
        let isEnded = false;
        const timer = setInterval(() => void beat(), heartbeatMs);
        const leave = follow(tell);
        end = () => {
          if (isEnded) return;
          isEnded = true;
          clearInterval(timer);
          leave();
          openStreams.delete(end);
          try {
            stream.close();
          } catch {} // already cancelled by the reader
        };
        signal.addEventListener("abort", () => end(), { once: true });
        endWithProcess(end);
        write(`retry: ${RECONNECT_MS}\n\n`);
        if (isBack) tell("missed");
        if (signal.aborted) end();
      },
      pull: () => onRoom(),
      cancel: () => end(),
    },
    new CountQueuingStrategy({ highWaterMark: MOST_WAITING }),
  );
}

const openStreams = new Set<() => void>();
let isWatching = false;

/** An open stream would keep a server from ending in its own time. */
function endWithProcess(end: () => void): void {
  openStreams.add(end);
  if (isWatching) return;
  isWatching = true;
  for (const name of ["SIGTERM", "SIGINT"] as const) {
    process.prependOnceListener(name, () => {
      for (const each of [...openStreams]) each();
      // Listening took away what the signal does by itself; give it back where nobody else listens.
      if (process.listenerCount(name) === 0) process.kill(process.pid, name);
    });
  }
}
