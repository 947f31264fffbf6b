"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";
import type { ChangeKind } from "@/lib/live/change";
import { followChanges, type Told } from "@/lib/live/follow-changes";

/** Changes of one transaction are told one after the other; they are asked for together. */
const FIRST_MS = 50;
/** However often something changes, the page is asked for no more often than this. */
const APART_MS = 400;

/** Asks for the page anew when something it shows has changed elsewhere; what is typed stays, and a hidden tab waits until it is looked at. */
export function LiveRefresh({ company, kinds, id }: { company: string; kinds: readonly ChangeKind[]; id?: string }) {
  const router = useRouter();
  const shown = kinds.join(" ");
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let isOwed = false;
    let lastMs = Number.NEGATIVE_INFINITY;
    const refresh = () => {
      timer = undefined;
      lastMs = performance.now();
      if (document.visibilityState === "hidden") isOwed = true;
      else router.refresh();
    };
    const onTold = (told: Told) => {
      const isShown = told === "missed" || (shown.split(" ").includes(told.kind) && (id ?? told.id) === told.id);
      if (isShown) timer ??= setTimeout(refresh, Math.max(FIRST_MS, lastMs + APART_MS - performance.now()));
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
