import type { CompanyId, PersonId } from "@/lib/ids";
import type { Desk, KeptRow } from "./device-rows";
import type { DeviceStore } from "./device-store";
import { type FetchOutcome, outcomeOf } from "./fetch-log";
import { lockAway, readKey, unlock } from "./lock-away";
import type { Ask } from "./send";

/** Whom this tablet works for. */
export interface TabletPerson {
  readonly desk: Desk;
  readonly name: string;
  readonly companyName: string;
  readonly roles: readonly string[];
  /** What the company's rules measure in: what nobody chose otherwise. Absent in what an older program kept. */
  readonly units?: "us" | "si";
}

/** Who is at the tablet: as the server just said, as it said last, or nobody it could show anything to. */
export type Standing =
  | { readonly at: "confirmed"; readonly person: TabletPerson; readonly stillLocked: number }
  | { readonly at: "kept"; readonly person: TabletPerson; readonly because: FetchOutcome }
  | { readonly at: "nobody"; readonly because: FetchOutcome | DiskTrouble };

/** Why the device's own store does not open. */
export type DiskTrouble = "older-program" | "no-disk";

interface MeAnswer {
  readonly person: { readonly id: PersonId; readonly name: string };
  readonly company: { readonly id: CompanyId; readonly slug: string; readonly name: string };
  readonly roles: readonly string[];
  readonly units?: "us" | "si";
  readonly tabletKey: string;
}

const PERSON = "person ";
const keyName = ({ company, person }: Pick<Desk, "company" | "person">) => `key ${company} ${person}`;
const OWED = "sign-out owed";

export async function keptPerson(store: DeviceStore, slug: string): Promise<TabletPerson | null> {
  return ((await store.kept.get(PERSON + slug))?.value as TabletPerson | undefined) ?? null;
}

/** The company this tablet was used for last: where a start without an address leads. */
export async function lastSlug(store: DeviceStore): Promise<string | null> {
  return ((await store.kept.get("last company"))?.value as string | undefined) ?? null;
}

export async function askWho(ask: Ask, slug: string): Promise<MeAnswer | Exclude<FetchOutcome, "fresh">> {
  const response = await ask(`/api/${slug}/me`, {}).catch(() => null);
  if (!response) return "no-network";
  return response.ok ? ((await response.json()) as MeAnswer) : outcomeOf(response.status);
}

/**
 * Asks the server who is signed in and sets the device right for them: whoever was here before is locked away first, then
 * their own locked work is opened. A session that only ran out leaves them at work; one that was `ended` does not.
 */
export async function confirmPerson(store: DeviceStore, slug: string, ask: Ask, ended: boolean): Promise<Standing> {
  if ((await store.kept.get(OWED)) && !(await endSession(store, ask))) return { at: "nobody", because: "no-network" };
  const kept = await keptPerson(store, slug);
  const me = await askWho(ask, slug);
  if (typeof me === "string") {
    if (ended && me === "signed-out") await leaveAll(store);
    return kept && !ended ? { at: "kept", person: kept, because: me } : { at: "nobody", because: me };
  }
  const desk: Desk = { company: me.company.id, slug: me.company.slug, person: me.person.id };
  await leaveAll(store, (before) => before.desk.person !== desk.person);
  const person: TabletPerson = {
    desk,
    name: me.person.name,
    companyName: me.company.name,
    roles: me.roles,
    ...(me.units && { units: me.units }),
  };
  let stillLocked = 0;
  const known: KeptRow[] = [
    { name: PERSON + slug, value: person },
    { name: "last company", value: slug },
  ];
  if (canLock()) {
    const key = await readKey(me.tabletKey);
    stillLocked = await unlock(store, desk, key);
    known.push({ name: keyName(desk), value: key });
  }
  await store.transaction("rw", ["kept"], async ({ kept: shelf }) => {
    for (const row of known) await shelf.put(row);
  });
  return { at: "confirmed", person, stillLocked };
}

/** Whether this page may encrypt: browsers allow it on HTTPS and on the machine itself. */
export function canLock(): boolean {
  return globalThis.crypto?.subtle !== undefined;
}

/** Locks away all that the people chosen have here, takes their names and keys off the device, and forgets the rest. */
export async function leaveAll(
  store: DeviceStore,
  whom: (person: TabletPerson) => boolean = () => true,
): Promise<void> {
  const people = (await store.kept.list()).filter(({ name }) => name.startsWith(PERSON));
  for (const { name, value } of people) {
    const person = value as TabletPerson;
    if (!whom(person)) continue;
    const key = (await store.kept.get(keyName(person.desk)))?.value as CryptoKey | undefined;
    const { company, person: id } = person.desk;
    if (key) await lockAway(store, { company, person: id }, key);
    await store.kept.delete(name);
    await store.kept.delete(keyName(person.desk));
  }
}

/** Leaves the tablet: locked here at once; the session ends now, or as soon as the server is reached again. */
export async function signOutHere(store: DeviceStore, ask: Ask): Promise<"ended" | "owed"> {
  await store.kept.put({ name: OWED, value: true });
  await leaveAll(store);
  return (await endSession(store, ask)) ? "ended" : "owed";
}

async function endSession(store: DeviceStore, ask: Ask): Promise<boolean> {
  try {
    const { csrfToken } = (await (await ask("/api/auth/csrf", {})).json()) as { csrfToken: string };
    const body = new URLSearchParams({ csrfToken, json: "true" });
    if (!(await ask("/api/auth/signout", { method: "POST", body })).ok) return false;
  } catch {
    return false;
  }
  await store.kept.delete(OWED);
  return true;
}
