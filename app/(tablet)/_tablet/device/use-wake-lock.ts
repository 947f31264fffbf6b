"use client";

import { useEffect } from "react";

/** Keeps the screen on while a clock runs, where the browser can; asks again when the page comes back. */
export function useWakeLock(wanted: boolean) {
  useEffect(() => {
    if (!wanted || !("wakeLock" in navigator)) return;
    let lock: WakeLockSentinel | undefined;
    let gone = false;
    async function ask() {
      if (gone || document.visibilityState !== "visible") return;
      lock = await navigator.wakeLock.request("screen").catch(() => undefined); // refused on low battery
      if (gone) void lock?.release();
    }
    void ask();
    document.addEventListener("visibilitychange", ask);
    return () => {
      gone = true;
      document.removeEventListener("visibilitychange", ask);
      void lock?.release();
    };
  }, [wanted]);
}
