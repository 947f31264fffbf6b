"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";
import type { ChangeKind } from "@/lib/live/change";
import { followChanges, type Told } from "@/lib/live/follow-changes";

const QUIET_MS = 400;

/** Asks for the page anew when something it shows has changed elsewhere; what is typed stays, and a hidden tab waits until it is looked at. */
export function LiveRefresh({ company, kinds, id }: { company: string; kinds: readonly ChangeKind[]; id?: string }) {
  const router = useRouter();
  const shown = kinds.join(" ");
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let isOwed = false;
    const refresh = () => {
      timer = undefined;
      if (document.visibilityState === "hidden") isOwed = true;
      else router.refresh();
    };
    const onTold = (told: Told) => {
      const isShown = told === "missed" || (shown.split(" ").includes(told.kind) && (id ?? told.id) === told.id);
      if (isShown) timer ??= setTimeout(refresh, QUIET_MS);
    };
    const onVisible = () => {
      if (!isOwed || document.visibilityState === "hidden") return;
      isOwed = false;
      router.refresh();
    };
    const leave = followChanges(company, onTold);
    document.addEventListener("visibilitychange", onVisible);
    return () => {
      clearTimeout(timer);
      document.removeEventListener("visibilitychange", onVisible);
      leave();
    };
  }, [router, company, shown, id]);
  return null;
}
