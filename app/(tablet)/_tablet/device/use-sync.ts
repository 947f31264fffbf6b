"use client";

import { useCallback, useSyncExternalStore } from "react";
import { countOutbox, type OutboxCount, type SenderState } from "@/lib/sync/device";
import { useDevice } from "./device-context";
import { useLive } from "./use-live";

export interface SyncStanding extends OutboxCount {
  readonly sender: SenderState;
}

/** How much waits here and how sending goes; undefined until the disk has been read. */
export function useSync(): SyncStanding | undefined {
  const { store, desk, sender } = useDevice();
  const count = useLive(`outbox ${desk.company} ${desk.person}`, ["outbox", "chunks", "pictures"], () =>
    countOutbox(store, desk),
  );
  const state = useSyncExternalStore(
    sender.watch,
    () => sender.state,
    () => "idle" as const,
  );
  return count && { ...count, sender: state };
}

/** Whether the last attempt to save anything found no room. */
export function useStorageFull(): boolean {
  const { store } = useDevice();
  const watch = useCallback((changed: () => void) => store.watch(changed), [store]);
  return useSyncExternalStore(
    watch,
    () => store.full,
    () => false,
  );
}
