"use client";

import { createContext, type ReactNode, useContext, useEffect, useMemo, useState, useSyncExternalStore } from "react";
import type { CompanyId, PersonId } from "@/lib/ids";
import {
  browserLocks,
  countOutbox,
  type Desk,
  type DeviceLocks,
  DeviceStore,
  type OutboxCount,
  pageLocks,
  Sender,
  type SenderState,
  sendOwed,
} from "@/lib/sync/device";
import { useLive } from "./use-live";

export interface TabletPerson {
  readonly desk: Desk;
  readonly name: string;
  readonly companyName: string;
  readonly roles: readonly string[];
}

export interface Device {
  readonly person: TabletPerson;
  readonly desk: Desk;
  readonly store: DeviceStore;
  readonly locks: DeviceLocks;
  readonly sender: Sender;
}

const DeviceContext = createContext<Device | null>(null);

/** Opens the tablet's own store and keeps sending from it while the page is open. */
export function DeviceProvider({ person, children }: { person: TabletPerson; children: ReactNode }) {
  const { company, slug, person: personId } = person.desk;
  const device = useMemo(() => makeDevice(person, company, slug, personId), [person, company, slug, personId]);
  useEffect(() => device.sender.start(window), [device]);
  return <DeviceContext value={device}>{children}</DeviceContext>;
}

function makeDevice(person: TabletPerson, company: CompanyId, slug: string, personId: PersonId): Device {
  const desk: Desk = { company, slug, person: personId };
  const store = new DeviceStore();
  const hasLocks = typeof navigator !== "undefined" && "locks" in navigator;
  const locks = hasLocks ? browserLocks(navigator.locks) : pageLocks();
  const sender = new Sender(() => sendOwed(store, locks, desk, (path, request) => fetch(path, request)));
  return { person, desk, store, locks, sender };
}

export function useDevice(): Device {
  const device = useContext(DeviceContext);
  if (!device) throw new Error("no device around this component");
  return device;
}

export interface SyncStanding extends OutboxCount {
  readonly sender: SenderState;
}

/** How much waits here and how sending goes; undefined until the disk has been read. */
export function useSync(): SyncStanding | undefined {
  const { store, desk, sender } = useDevice();
  const count = useLive(`outbox ${desk.company} ${desk.person}`, () => countOutbox(store, desk));
  const state = useSyncExternalStore(
    sender.watch,
    () => sender.state,
    () => "idle" as const,
  );
  return count && { ...count, sender: state };
}

/** A clock that ticks for what is shown, not for what is recorded; undefined on the server. */
export function useNow(everyMs: number): number | undefined {
  const [now, setNow] = useState<number>();
  useEffect(() => {
    setNow(Date.now());
    const timer = setInterval(() => setNow(Date.now()), everyMs);
    return () => clearInterval(timer);
  }, [everyMs]);
  return now;
}
