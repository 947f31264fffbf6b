"use client";

import { useEffect, useState } from "react";
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
      <summary className="flex min-h-14 w-fit cursor-pointer items-center text-ink-soft">Kept on this tablet</summary>
      <ul className="grid list-disc gap-1 pl-6">
        <li>{sync.waiting === 0 ? "Nothing waits to be sent." : `${sync.waiting} things wait to be sent.`}</li>
        {sync.problems > 0 && <li>{sync.problems} were not taken by the server and are kept.</li>}
        <li>{promiseWords[String(keeping.promised) as "true" | "false" | "null"]}</li>
        {keeping.usedMB !== null && keeping.roomMB !== null && (
          <li>
            {keeping.usedMB} MB used, room for {keeping.roomMB.toLocaleString("en-US")} MB.
          </li>
        )}
        <li>{programWords()}</li>
      </ul>
    </details>
  );
}

function programWords(): string {
  if (!("serviceWorker" in navigator))
    return "This address has no HTTPS: the program cannot be kept here and needs the network to open.";
  return navigator.serviceWorker.controller
    ? "The program is kept here and opens without a network."
    : "The program is not kept here yet: leave this page open for a moment while there is a network.";
}

const promiseWords = {
  true: "The browser has promised to keep it until you clear it.",
  false:
    "The browser may clear it when the tablet runs out of room: put the program on the home screen, and send often.",
  null: "This browser does not say how long it keeps it: send often.",
};
