"use client";

import { useEffect, useState } from "react";
import { todayWords } from "@/lib/words/en/today";
import { useSync } from "../device/use-sync";

interface Keeping {
  /** The browser has promised not to clear this site's data by itself; null where it cannot be asked. */
  readonly promised: boolean | null;
  readonly usedMB: number | null;
  readonly roomMB: number | null;
}

/** What this tablet holds and how safely, in a few lines for whoever asks. */
export function KeptHere() {
  const sync = useSync();
  const [keeping, setKeeping] = useState<Keeping>();
  async function look() {
    const { storage } = navigator;
    const promised = (await storage?.persist?.()) ?? null;
    const estimate = await storage?.estimate?.();
    const inMB = (bytes: number | undefined) => (bytes === undefined ? null : Math.ceil(bytes / 1_000_000));
    setKeeping({ promised, usedMB: inMB(estimate?.usage), roomMB: inMB(estimate?.quota) });
  }
  useEffect(() => void look().catch(console.error), []);
  if (!sync || !keeping) return null;
  return (
    <details className="text-small">
      <summary className="flex min-h-14 w-fit cursor-pointer items-center text-ink-soft">
        <span aria-hidden="true" className="mr-2 inline-block transition-transform in-open:rotate-90">
          ›
        </span>
        {todayWords.keptOnThisTablet}
      </summary>
      <ul className="grid list-disc gap-1 pl-6">
        <li>{todayWords.waitToBeSent(sync.waiting)}</li>
        {sync.problems > 0 && <li>{todayWords.notTaken(sync.problems)}</li>}
        <li>{todayWords.promise[String(keeping.promised) as "true" | "false" | "null"]}</li>
        {keeping.usedMB !== null && keeping.roomMB !== null && (
          <li>{todayWords.room(keeping.usedMB, keeping.roomMB.toLocaleString("en-US"))}</li>
        )}
        <li>{programWords()}</li>
      </ul>
    </details>
  );
}

function programWords(): string {
  if (!("serviceWorker" in navigator)) return todayWords.noHttps;
  return navigator.serviceWorker.controller ? todayWords.programKept : todayWords.programNotKept;
}
