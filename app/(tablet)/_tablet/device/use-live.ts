"use client";

import { liveQuery } from "dexie";
import { useEffect, useRef, useState } from "react";

/** What a query of the device's store gives, kept up to date across tabs; undefined until first answered. */
export function useLive<T>(key: string, query: () => Promise<T>): T | undefined {
  const [answer, setAnswer] = useState<{ key: string; value: T }>();
  const latest = useRef(query);
  latest.current = query;
  useEffect(() => {
    const subscription = liveQuery(() => latest.current()).subscribe({
      next: (value) => setAnswer({ key, value }),
      error: (cause) => console.error(cause),
    });
    return () => subscription.unsubscribe();
  }, [key]);
  return answer?.key === key ? answer.value : undefined;
}
