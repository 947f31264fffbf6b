import type { Change } from "./change";

const AGAIN_MS = 15_000;

/** Told a change, or that some may have been missed. */
export type Told = Change | "missed";

/**
 * Follows a company's changes in a browser until the answer is called. One tab holds the connection for all of them: a browser
 * gives a site only few, and a dozen open tabs must not use them up. Where tabs cannot agree (no Web Locks), each has its own.
 */
export function followChanges(company: string, onTold: (told: Told) => void): () => void {
  const name = `dryhold changes ${company}`;
  const channel = new BroadcastChannel(name);
  channel.onmessage = ({ data }: MessageEvent<Told>) => onTold(data);
  const tellAll = (told: Told) => {
    onTold(told);
    channel.postMessage(told);
  };
  const gone = new AbortController();
  const address = `/api/${company}/changes`;
  const askedAtMs = performance.now();
  if (navigator.locks === undefined) void holdConnection(address, onTold, gone.signal);
  else {
    navigator.locks
      .request(name, { signal: gone.signal }, () => {
        // The tab that held it is gone: nobody knows what came between.
        if (performance.now() - askedAtMs > 1000) tellAll("missed");
        return holdConnection(address, tellAll, gone.signal);
      })
      .catch(() => {}); // this tab left while it waited
  }
  return () => {
    gone.abort();
    channel.close();
  };
}

/** Keeps a connection open, whatever it takes, until told to stop. */
function holdConnection(address: string, tell: (told: Told) => void, gone: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    let source: EventSource;
    let again: ReturnType<typeof setTimeout> | undefined;
    const open = () => {
      source = new EventSource(address);
      source.addEventListener("change", ({ data }: MessageEvent<string>) => tell(JSON.parse(data) as Change));
      source.addEventListener("missed", () => tell("missed"));
      source.addEventListener("error", () => {
        // A broken connection is made again by the browser; a refused one is not.
        if (source.readyState !== EventSource.CLOSED || again !== undefined) return;
        again = setTimeout(() => {
          again = undefined;
          open();
          tell("missed");
        }, AGAIN_MS);
      });
    };
    open();
    gone.addEventListener("abort", () => {
      clearTimeout(again);
      source.close();
      resolve();
    });
  });
}
