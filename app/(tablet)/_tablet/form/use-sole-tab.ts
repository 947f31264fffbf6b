"use client";

import { useCallback, useEffect, useRef, useState } from "react";

/** A tab that just left the step gives it free a moment later. */
const WAIT_MS = 400;

/** Holds a name for this tab alone while the component stands. `mine` is false while another tab holds it. */
export function useSoleTab(name: string): { mine: boolean; takeOver: () => void } {
  const [mine, setMine] = useState(true);
  const release = useRef<() => void>(() => undefined);
  const hold = useCallback(
    (how: LockOptions) => {
      if (!("locks" in navigator)) return; // an address without HTTPS has no locks to share
      void navigator.locks
        .request(name, how, () => {
          setMine(true);
          return new Promise<void>((resolve) => {
            release.current = resolve;
          });
        })
        .catch(() => setMine(false)); // waited in vain, or another tab took it over
    },
    [name],
  );
  useEffect(() => {
    const gone = new AbortController();
    const waited = AbortSignal.any([gone.signal, AbortSignal.timeout(WAIT_MS)]);
    hold({ signal: waited });
    return () => {
      gone.abort();
      release.current();
    };
  }, [hold]);
  return { mine, takeOver: () => hold({ steal: true }) };
}
