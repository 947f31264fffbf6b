"use client";

import { useCallback, useEffect, useState } from "react";

const LOOK_EVERY_MS = 30 * 60_000;
/** The page in sight comes first on a weak link; the program's other parts can wait. */
const KEEP_AFTER_MS = 3_000;

/**
 * Keeps the tablet's program on the device. A newer one is fetched in the background and waits; the function returned goes over to it and
 * loads the page anew. Null while there is none.
 */
export function useProgram(): (() => void) | null {
  const [waiting, setWaiting] = useState<ServiceWorker | null>(null);
  useEffect(() => {
    if (!("serviceWorker" in navigator)) return; // an address without HTTPS
    let every: ReturnType<typeof setInterval> | undefined;
    let gone = false;
    async function keep() {
      const registration = await navigator.serviceWorker.register("/sw.js", { scope: "/t/", updateViaCache: "none" });
      if (gone) return;
      const see = () => {
        const worker = registration.installing;
        worker?.addEventListener("statechange", () => {
          // The very first one replaces nothing and is in charge by itself.
          if (worker.state === "installed" && navigator.serviceWorker.controller) setWaiting(worker);
        });
      };
      if (registration.waiting && navigator.serviceWorker.controller) setWaiting(registration.waiting);
      see();
      registration.addEventListener("updatefound", see);
      every = setInterval(() => void registration.update().catch(() => undefined), LOOK_EVERY_MS);
    }
    const soon = setTimeout(
      () => void keep().catch(() => undefined), // no network, or not a built app: the page works without
      navigator.serviceWorker.controller ? 0 : KEEP_AFTER_MS,
    );
    return () => {
      gone = true;
      clearTimeout(soon);
      clearInterval(every);
    };
  }, []);
  const takeOver = useCallback(() => {
    navigator.serviceWorker.addEventListener("controllerchange", () => window.location.reload(), { once: true });
    waiting?.postMessage("take-over");
  }, [waiting]);
  return waiting && takeOver;
}
