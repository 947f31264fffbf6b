"use client";

import { useEffect, useRef, useState } from "react";
import type { StoreName } from "@/lib/sync/device";
import { useDevice } from "./device-context";

/** What a query of the device's store gives, asked again whenever a store it reads has changed; undefined until first answered. */
export function useLive<T>(key: string, reads: readonly StoreName[], query: () => Promise<T>): T | undefined {
  const { store } = useDevice();
  const [answer, setAnswer] = useState<{ key: string; value: T }>();
  const latest = useRef(query);
  latest.current = query;
  const names = reads.join();
  useEffect(() => {
    let gone = false;
    let asked = 0;
    async function ask() {
      const turn = ++asked;
      try {
        const value = await latest.current();
        if (!gone && turn === asked) setAnswer({ key, value }); // an answer overtaken by a later question is dropped
      } catch (cause) {
        console.error(cause);
      }
    }
    void ask();
    const watched = names.split(",");
    const unwatch = store.watch((changed) => {
      if (changed.some((name) => watched.includes(name))) void ask();
    });
    return () => {
      gone = true;
      unwatch();
    };
  }, [store, key, names]);
  return answer?.key === key ? answer.value : undefined;
}
