"use client";

import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from "react";
import {
  type Ask,
  askWho,
  browserLocks,
  countOutbox,
  type Desk,
  type DeviceLocks,
  DeviceStore,
  listOwedLinks,
  pageLocks,
  Sender,
  type SendOutcome,
  sendOwed,
  type TabletPerson,
} from "@/lib/sync/device";

/** A link so weak that nothing comes for a minute is no link: the work goes on and is sent later. */
const GIVE_UP_MS = 60_000;

/** What the tablet is, whoever is at it. */
export interface Tablet {
  readonly store: DeviceStore;
  readonly locks: DeviceLocks;
  readonly ask: Ask;
}

export interface Device extends Tablet {
  readonly person: TabletPerson;
  readonly desk: Desk;
  readonly sender: Sender;
  /** Goes over to a newer program, which loads the page anew; null while there is none. */
  readonly takeOver: (() => void) | null;
}

const DeviceContext = createContext<Device | null>(null);

export function openTablet(): Tablet {
  const hasLocks = "locks" in navigator;
  return {
    store: new DeviceStore(),
    locks: hasLocks ? browserLocks(navigator.locks) : pageLocks(),
    ask: (path, request) => fetch(path, { ...request, signal: AbortSignal.timeout(GIVE_UP_MS) }),
  };
}

/** Keeps sending what this person owes while the page is open. */
export function DeviceProvider(props: {
  tablet: Tablet;
  person: TabletPerson;
  takeOver: (() => void) | null;
  onSomeoneElse: () => void;
  children: ReactNode;
}) {
  const { tablet, person, takeOver, onSomeoneElse, children } = props;
  const sender = useMemo(
    () => new Sender(() => round(tablet, person.desk, onSomeoneElse)),
    [tablet, person, onSomeoneElse],
  );
  useEffect(() => sender.start(window), [sender]);
  const device = useMemo(
    () => ({ ...tablet, person, desk: person.desk, sender, takeOver }),
    [tablet, person, sender, takeOver],
  );
  return <DeviceContext value={device}>{children}</DeviceContext>;
}

/** Sends under one's own name only: a session of someone else would send this person's work as theirs. */
async function round({ store, locks, ask }: Tablet, desk: Desk, onSomeoneElse: () => void): Promise<SendOutcome> {
  if ((await countOutbox(store, desk)).waiting > 0 || (await listOwedLinks(store, desk)).length > 0) {
    const me = await askWho(ask, desk.slug);
    if (me === "no-network" || me === "signed-out") return { code: me };
    if (typeof me !== "string" && me.person.id !== desk.person) {
      onSomeoneElse();
      return { code: "signed-out" };
    }
  }
  return sendOwed(store, locks, desk, ask);
}

export function useDevice(): Device {
  const device = useContext(DeviceContext);
  if (!device) throw new Error("no device around this component");
  return device;
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
