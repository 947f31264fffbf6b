"use client";

import { useCallback, useEffect, useRef, useState } from "react";

/** A tab that just left the step gives it free a moment later. */
const WAIT_MS = 400;

/** Holds a name for this tab alone while the component stands. `mine` is false while another tab holds it. */
export function useSoleTab(name: string): { mine: boolean; takeOver: () => void } {
  const [mine, setMine] = useState(true);
  const release = useRef<() => void>(() => undefined);
  const hold = useCallback(
    async (how: LockOptions) => {
      if (!("locks" in navigator)) return; // an address without HTTPS has no locks to share
      try {
        await navigator.locks.request(name, how, () => {
          if (how.signal?.aborted) return;
          setMine(true);
          return new Promise<void>((resolve) => {
            release.current = resolve;
          });
        });
      } catch {
        if (!how.signal?.aborted) setMine(false); // another tab took it over
      }
    },
    [name],
  );
  useEffect(() => {
    const gone = new AbortController();
    void hold({ signal: gone.signal });
    // A page busy with drawing is not a page that waits: the browser's own list says whether this tab is in the queue.
    const look = setTimeout(async () => {
      const { pending } = (await navigator.locks?.query()) ?? {};
      if (pending?.some((lock) => lock.name === name) && !gone.signal.aborted) setMine(false);
    }, WAIT_MS);
    return () => {
      clearTimeout(look);
      gone.abort();
      release.current();
    };
  }, [hold, name]);
  return { mine, takeOver: () => void hold({ steal: true }) };
}
