"use client";

import { useCallback, useEffect, useState } from "react";
import { type FetchOutcome, fetchPage } from "@/lib/sync/device";
import { useDevice } from "./device-context";
import { useLive } from "./use-live";

export interface KeptPage<T> {
  /** From disk: undefined while it is read, null when this device never had it. */
  readonly content: T | null | undefined;
  readonly fetchedAt: string | undefined;
  /** How the last fetch ended; undefined while it runs. */
  readonly outcome: FetchOutcome | undefined;
  readonly refresh: () => Promise<FetchOutcome>;
}

/** One answer of the server, shown from disk first and renewed when it can be. */
export function useKeptPage<T>(name: string, path: string): KeptPage<T> {
  const { store, desk, ask } = useDevice();
  const row = useLive(
    `page ${desk.company} ${name}`,
    ["pages"],
    async () => (await store.pages.get([desk.company, desk.person, name])) ?? null,
  );
  const [outcome, setOutcome] = useState<FetchOutcome>();
  const refresh = useCallback(async () => {
    const ended = await fetchPage(store, desk, ask, name, path);
    setOutcome(ended);
    return ended;
  }, [store, desk, ask, name, path]);
  useRefreshing(refresh);
  return {
    content: row === undefined ? undefined : row === null ? null : (row.content as T),
    fetchedAt: row?.fetchedAt,
    outcome,
    refresh,
  };
}

const EVERY_MS = 60_000;

/** Asks again when the page comes back, when there is a network, and every minute while it is looked at. */
export function useRefreshing(refresh: () => Promise<unknown>) {
  useEffect(() => {
    const ask = () => {
      if (document.visibilityState === "visible") refresh().catch(console.error); // no room: said by the banner
    };
    ask();
    const timer = setInterval(ask, EVERY_MS);
    window.addEventListener("online", ask);
    document.addEventListener("visibilitychange", ask);
    return () => {
      clearInterval(timer);
      window.removeEventListener("online", ask);
      document.removeEventListener("visibilitychange", ask);
    };
  }, [refresh]);
}
