import { setTimeout as delay, setImmediate as turn } from "node:timers/promises";
import { listEntries } from "@/lib/db/entries";
import type { Entry, TraceReference } from "@/lib/hvac/procedure";
import type { EntryId, JobId, PersonId } from "@/lib/ids";
import type { Ask, Desk } from "@/lib/sync/device";
import type { Crew } from "./crew";
import { holdFrom, quietHold, randomContent, randomOfficeContent } from "./field-content";
import type { FieldDevice } from "./field-device";
import { indexedDbDevice } from "./indexeddb-device";
import { memoryDevice } from "./memory-device";
import { Network, type NetworkFate } from "./network";
import { Seeded } from "./seeded";
import { SERVER_FAULTS } from "./server-faults";
import { listViolations } from "./violations";

/** What happens in a run, and how often beside each other. */
const HAPPENINGS = {
  write: 34,
  "hold-from-trace": 3,
  send: 22,
  fetch: 10,
  "killed-while-writing": 4,
  "killed-while-sending": 5,
  "killed-while-fetching": 2,
  "disk-full": 2,
  "disk-freed": 2,
  "clock-turned": 3,
  "session-ended": 2,
  "signed-in": 2,
  "taken-off-the-visit": 1,
  "role-taken": 1,
  "left-the-company": 1,
  "member-again": 2,
  "office-writes": 5,
  "late-copies": 3,
} as const;
type Happening = keyof typeof HAPPENINGS;

/** A way to break the program on purpose, to see that the run notices. */
export interface Plant {
  readonly ask?: (ask: Ask, crew: Crew, person: PersonId) => Ask;
  readonly device?: (device: FieldDevice) => FieldDevice;
}

export interface RunReport {
  readonly seed: number;
  readonly job: JobId;
  /** Entries a device called saved. */
  readonly saved: number;
  readonly received: number;
  readonly quarantined: number;
  readonly happenings: ReadonlyMap<Happening, number>;
  readonly fates: ReadonlyMap<NetworkFate, number>;
  readonly serverFaults: number;
  readonly violations: readonly string[];
}

/** What the outside knows of a run: what was called saved, and which acts were begun. */
export interface RunRecord {
  readonly job: JobId;
  readonly saved: Map<EntryId, Entry>;
  readonly savedTraces: readonly (TraceReference & { readonly person: PersonId })[];
  readonly devices: readonly FieldDevice[];
  /** People who are no members at the end: their devices may send, but not fetch. */
  readonly gone: ReadonlySet<PersonId>;
}

/** One run: two or three devices on one job through everything that can go wrong, then peace, then the reckoning. */
export async function playRun(crew: Crew, seed: number, plant: Plant = {}): Promise<RunReport> {
  const chance = new Seeded(seed);
  const { job, takeOff } = await crew.newRun();
  const { company, slug } = { company: crew.company.company, slug: crew.company.dispatcher.slug };
  const saved = new Map<EntryId, Entry>();
  const savedTraces: (TraceReference & { person: PersonId })[] = [];
  const gone = new Set<PersonId>();
  const networks: Network[] = [];
  const happened = new Map<Happening, number>();
  let serverFaults = 0;
  let calm = false;
  let acts = 0;
  let clockMs = Date.UTC(2026, 10, 25, 8) + chance.whole(-13, 13) * 3_600_000;

  const connect = (person: PersonId) => {
    const serve: Ask = (path, request) => {
      if (calm || !chance.chance(0.2)) return crew.askOf(person)(path, request);
      serverFaults += 1;
      const fault = chance.chance(0.05) ? "deadlock" : chance.pick(SERVER_FAULTS.filter((each) => each !== "deadlock"));
      return crew.server.during(job, fault, () => crew.askOf(person)(path, request));
    };
    const network = new Network(chance, plant.ask?.(serve, crew, person) ?? serve);
    networks.push(network);
    return network.ask;
  };
  const devices: FieldDevice[] = [];
  for (let n = 0; n < chance.whole(2, 3); n++) {
    const desk: Desk = { company, slug, person: n === 0 ? crew.technicians[0]! : chance.pick(crew.technicians) };
    const ask = connect(desk.person);
    const device =
      n > 0 && chance.chance(0.6)
        ? memoryDevice(desk, job, ask)
        : await indexedDbDevice(desk, job, ask, chance, chance.whole(1, 2));
    devices.push(plant.device?.(device) ?? device);
  }

  const now = () => (clockMs += chance.whole(500, 90_000));
  const token = () => `act ${seed}-${++acts}`;
  const noteSaved = (entry: Entry) => saved.set(entry.id, entry);
  const write = async (device: FieldDevice) => noteSaved(await device.write(randomContent(chance, token()), now()));
  const writeHold = async (device: FieldDevice) => {
    const trace = await device.keepTrace(quietHold(chance));
    savedTraces.push({ ...trace, person: device.person });
    noteSaved(await device.write(holdFrom(trace, token()), now()));
  };
  /** The program ends somewhere within the act; what it had called saved by then counts. */
  const killedWithin = async (device: FieldDevice, act: Promise<Entry | string>, wait: () => Promise<unknown>) => {
    let done: Entry | string | undefined;
    act.then((outcome) => (done = outcome)).catch(() => {});
    await wait();
    const before = done;
    await device.kill();
    if (typeof before === "object") noteSaved(before);
  };
  const turns = async () => {
    for (let left = chance.whole(0, 40); left > 0; left--) await turn();
  };

  const happen = async (happening: Happening, device: FieldDevice): Promise<unknown> => {
    const { person } = device;
    switch (happening) {
      case "write":
        await write(device);
        return chance.chance(0.4) ? write(device) : undefined;
      case "hold-from-trace":
        return writeHold(device);
      case "send":
        return device.send(now());
      case "fetch":
        return device.fetch(now());
      case "killed-while-writing":
        return killedWithin(device, device.write(randomContent(chance, token()), now()), turns);
      case "killed-while-sending":
        return killedWithin(device, device.send(now()), () => delay(chance.whole(0, 40)));
      case "killed-while-fetching":
        return killedWithin(device, device.fetch(now()), () => delay(chance.whole(0, 30)));
      case "disk-full":
        return device.setFull(true);
      case "disk-freed":
        return device.setFull(false);
      case "clock-turned":
        clockMs += chance.whole(-15, 15) * 3_600_000;
        return;
      case "session-ended":
        return crew.endSessions(person);
      case "signed-in":
        return crew.signIn(person);
      case "taken-off-the-visit":
        return takeOff(person);
      case "role-taken":
        return crew.setMember(person, { roles: ["dispatcher"], active: true });
      case "left-the-company":
        gone.add(person);
        return crew.setMember(person, { roles: ["technician"], active: false });
      case "member-again":
        gone.delete(person);
        return crew.setMember(person, { roles: ["technician"], active: true });
      case "office-writes": {
        const seen = await crew.inCompany((tx) => listEntries(tx, job));
        return crew.writeFromOffice(job, randomOfficeContent(chance, token(), seen)).catch(() => {});
      }
      case "late-copies":
        return Promise.all(networks.map((network) => network.deliverLate()));
    }
  };
  for (let left = chance.whole(8, 18); left > 0; left--) {
    const happening = chance.weighted(HAPPENINGS);
    happened.set(happening, (happened.get(happening) ?? 0) + 1);
    // A refused write (disk full), a broken answer: the person sees it did not work, and goes on.
    await happen(happening, chance.pick(devices)).catch(() => {});
  }

  calm = true;
  for (const network of networks) network.calm = true;
  for (const device of devices) {
    device.setFull(false);
    await crew.signIn(device.person);
  }
  const settle = async (act: (device: FieldDevice) => Promise<string>, done: string) => {
    for (const device of devices) {
      for (let tries = 0; tries < 5; tries++) if ((await act(device).catch(String)) === done) break;
    }
  };
  const settled = () => Promise.all(networks.map((network) => network.settled()));
  await settled();
  await settle((device) => device.send(now()), "all-sent");
  await Promise.all(networks.map((network) => network.deliverLate()));
  await settled();
  await settle((device) => device.fetch(now()), "fresh");

  const found = await listViolations(crew, { job, saved, savedTraces, devices, gone });
  for (const device of devices) await device.end();
  const fates = new Map<NetworkFate, number>();
  for (const network of networks)
    for (const [fate, count] of network.seen) fates.set(fate, (fates.get(fate) ?? 0) + count);
  return { seed, job, saved: saved.size, ...found, happenings: happened, fates, serverFaults };
}
