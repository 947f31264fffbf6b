"use client";

import { useCallback, useEffect, useState } from "react";
import type { EntryContent, JobState, LogEntry } from "@/lib/hvac/procedure";
import type { JobId, TraceId } from "@/lib/ids";
import { followChanges } from "@/lib/live/follow-changes";
import {
  type FetchOutcome,
  fetchLog,
  isStorageFull,
  type KnownTrace,
  listJobEntries,
  writeEntry,
} from "@/lib/sync/device";
import { recordWords } from "@/lib/words/en/record";
import { useDevice } from "../device/device-context";
import { useLive } from "../device/use-live";
import { useRefreshing } from "../device/use-page";
import { useFolded } from "../judging/use-folded";
import { closingContent } from "./closing-content";
import { type EntryProblem, EntryRefused, PROGRAM, requireWellFormed, STORAGE } from "./entry-check";
import type { JobHeading } from "./job-heading";
import { useTraces } from "./use-traces";

export interface OpenJob {
  readonly id: JobId;
  readonly heading: JobHeading;
  readonly entries: readonly LogEntry[];
  readonly traces: ReadonlyMap<TraceId, KnownTrace>;
  readonly state: JobState;
  /** Saves one entry here; resolves when it is on disk, with what is wrong with it when it is not. */
  readonly record: (content: EntryContent) => Promise<readonly EntryProblem[]>;
  readonly close: () => Promise<readonly EntryProblem[]>;
}

export type JobReading =
  | { readonly at: "reading" }
  | { readonly at: "nothing-kept"; readonly outcome: FetchOutcome }
  | { readonly at: "open"; readonly job: OpenJob };

/** The job from this device's disk, folded anew with every entry, and renewed from the server when it can be. */
export function useJob(id: JobId): { reading: JobReading; refresh: () => Promise<unknown> } {
  const { store, desk, locks, sender, ask } = useDevice();
  const page = useLive(
    `heading ${id}`,
    ["pages"],
    async () => (await store.pages.get([desk.company, desk.person, `job ${id}`])) ?? null,
  );
  const heading = page === undefined ? undefined : ((page?.content as JobHeading | undefined) ?? null);
  const entries = useLive(`log ${id}`, ["log", "outbox"], () => listJobEntries(store, desk, id));
  const traces = useTraces(id, heading);
  const [outcome, setOutcome] = useState<FetchOutcome>();

  const refresh = useCallback(async () => {
    setOutcome(await fetchLog(store, desk, ask, id));
  }, [store, desk, ask, id]);
  useRefreshing(refresh);
  // An answer of the office shows as it comes; where no connection stands, the minute's asking finds it.
  useEffect(
    () =>
      followChanges(desk.slug, (told) => {
        if (told === "missed" || told.id === id) void refresh();
      }),
    [desk.slug, id, refresh],
  );

  const write = useCallback(
    async (content: Parameters<typeof writeEntry>[4]): Promise<readonly EntryProblem[]> => {
      const check = await requireWellFormed().catch(() => null);
      if (check === null) return [{ path: PROGRAM, message: recordWords.programNotHere }];
      try {
        await writeEntry(store, locks, desk, id, content, { check });
      } catch (cause) {
        if (cause instanceof EntryRefused) return cause.problems;
        if (isStorageFull(cause)) return [{ path: STORAGE, message: recordWords.noRoom }];
        throw cause;
      }
      void navigator.storage?.persist?.();
      void sender.nudge();
      return [];
    },
    [store, locks, desk, id, sender],
  );

  const folded = useFolded(entries, traces);
  if (heading === undefined || !folded) return { reading: { at: "reading" }, refresh };
  if (heading === null)
    return { reading: outcome === undefined ? { at: "reading" } : { at: "nothing-kept", outcome }, refresh };
  const close = () => write((seen, heads) => closingContent(seen, heads));
  return { reading: { at: "open", job: { id, heading, ...folded, record: write, close } }, refresh };
}
