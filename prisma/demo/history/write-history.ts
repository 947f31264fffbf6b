import type { Client } from "pg";
import { v7 as uuidv7 } from "uuid";
import { type JobSummary, summaryOf } from "@/lib/db/job-summary";
import { foldJob, type LogEntry } from "@/lib/hvac/procedure";
import { judgeProof } from "@/lib/hvac/proof/judge-proof";
import { proofFacts } from "@/lib/hvac/proof/proof-facts";
import { CompanyId, JobId, PersonId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { rememberedJudges } from "@/lib/sync/remembered-judges";
import { traceShelf } from "@/lib/sync/trace";
import { circuitFactsOf } from "@/lib/work/circuit-facts";
import { dayAt, instantAt } from "@/lib/work/site-time";
import { drawPast, type PastJob, type PastWorld, seededRandom } from "./draw-past";
import { insertRows } from "./insert-rows";
import { pastLog } from "./past-log";
import { pastReturn } from "./past-return";
import { HISTORY_SEED, pastCustomers, pastPeople, pastWorld, UNITS_A_CUSTOMER } from "./past-world";

const DAY_MS = 86_400_000;
const CHUNK = 100;
const circuitColumns = {
  refrigerantState: "identified",
  actualRefrigerant: "R-410A",
  factoryChargeKg: 3.4,
  lineLengthM: 9.1,
  liquidLineOdMm: 9.53,
  suctionLineOdMm: 19.05,
  internalVolumeL: 12.4,
  internalVolumeBasis: "estimated",
  lowSideDesignKpaGauge: 1724,
  highSideDesignKpaGauge: 3275,
};
const circuitFacts = circuitFactsOf({ ...circuitColumns, applianceKind: "comfort_cooling" }, "us", "2026-01-01");

export interface HistoryPlace {
  readonly company: string;
  readonly timeZone: string;
  readonly people: ReadonlyMap<string, string>;
}

/**
 * Two invented years of closed jobs with their whole logs, their returns and what a person said of them, written in
 * bulk by the migrator; the database's own triggers count them up. How many jobs and callbacks there are now.
 */
export async function writeHistory(client: Client, place: HistoryPlace, now: Date, more: Partial<PastWorld> = {}) {
  const { company, timeZone } = place;
  const todayDay = Date.parse(`${dayAt(now, timeZone)}T00:00:00Z`) / DAY_MS;
  const world = { ...pastWorld(todayDay), ...more };
  const random = seededRandom(HISTORY_SEED);
  const past = drawPast(world, random);
  const field = await insertPeople(client, place);
  const units = await insertUnits(client, place, world.unitYears);
  const office = (email: string) => PersonId.parse(place.people.get(email));
  const [dispatcher, supervisor] = [office("ada@fernhollow.example"), office("marek@fernhollow.example")];
  const first = await takeNumbers(client, company, past);
  const summarise = summariser();

  const at = (day: number, clock: string) =>
    instantAt(`${new Date(day * DAY_MS).toISOString().slice(0, 10)}T${clock}`, timeZone)!;
  let orders = 0;
  let callbacks = 0;
  for (let from = 0; from < past.length; from += CHUNK) {
    const rows = { calls: [] as object[], orders: [] as object[], visits: [] as object[], people: [] as object[] };
    const [jobs, entries, returns]: object[][] = [[], [], []];
    for (const [offset, each] of past.slice(from, from + CHUNK).entries()) {
      const unit = units[each.unit]!;
      const technician = field[each.person]!;
      const startedAt = at(each.closedDay, "08:00");
      const endedAt = new Date(startedAt.getTime() + 6 * 3_600_000);
      const order = (said: string, urgency: string, on: Date, done: Date) => {
        const [call, id] = [uuidv7({ msecs: on.getTime() }), uuidv7({ msecs: on.getTime() })];
        const number = first.work_order + orders++;
        rows.calls.push({
          id: call,
          number,
          ...unit.place,
          symptom: said,
          urgency,
          taken_by: dispatcher,
          taken_at: on,
        });
        rows.orders.push({ id, number, service_call_id: call, opened_at: on, ended_at: done });
        const visit = uuidv7({ msecs: on.getTime() });
        rows.visits.push({ id: visit, work_order_id: id, planned_start: done, planned_minutes: 240 });
        rows.people.push({ visit_id: visit, person_id: technician });
        return id;
      };
      const id = JobId.parse(uuidv7({ msecs: startedAt.getTime() }));
      const workOrder = order("Not cooling.", "today", new Date(startedAt.getTime() - DAY_MS), endedAt);
      const log = pastLog({
        company: CompanyId.parse(company),
        job: id,
        kind: each.kind,
        story: each.story,
        circuit: circuitFacts,
        dispatcher,
        technician,
        supervisor,
        startedAt,
      });
      const { strength, summary } = summarise(log, each);
      const number = first.circuit_job + from + offset;
      const [work_order_id, circuit_id] = [workOrder, unit.circuit];
      jobs!.push({
        id,
        number,
        work_order_id,
        circuit_id,
        opened_at: startedAt,
        strength,
        summary,
        changed_at: endedAt,
      });
      for (const { stamp, ...wire } of log)
        entries!.push({
          id: wire.id,
          job_id: id,
          installation_id: wire.installation,
          person_id: wire.person,
          seq: wire.seq,
          kind: wire.kind,
          wire,
          received_at: stamp!.receivedAt,
          roles: stamp!.roles,
        });
      const back = pastReturn(each, todayDay, random);
      if (back === null) continue;
      const came = at(back.day, "09:30");
      const later = order(back.said, "today", came, new Date(came.getTime() + back.workHours * 3_600_000));
      if (back.row.state === "confirmed") callbacks += 1;
      const decided =
        back.row.state === "proposed"
          ? { decided_by: null, decided_at: null }
          : { decided_by: supervisor, decided_at: came };
      returns!.push({ work_order_id: later, origin_job_id: id, ...decided, ...back.row });
    }
    await insertRows(
      client,
      company,
      "service_call",
      rows.calls.map((call) => ({ ...call, state: "done" })),
    );
    await insertRows(
      client,
      company,
      "work_order",
      rows.orders.map((each) => ({ ...each, state: "done" })),
    );
    await insertRows(
      client,
      company,
      "visit",
      rows.visits.map((visit) => ({ ...visit, state: "done" })),
    );
    await insertRows(client, company, "visit_person", rows.people);
    await insertRows(
      client,
      company,
      "circuit_job",
      jobs!.map((job) => ({ ...job, state: "closed" })),
    );
    await insertRows(client, company, "entry", entries!);
    await insertRows(client, company, "callback", returns!);
  }
  await client.query(
    "insert into callback_rule (tenant_id, hour_cost_cents, currency) values ($1, 9500, 'USD') on conflict do nothing",
    [company],
  );
  return { jobs: past.length, callbacks };
}

async function insertPeople(client: Client, { company, people }: HistoryPlace): Promise<PersonId[]> {
  const made = pastPeople.map((each) => ({ person_id: uuidv7(), ...each, roles: ["technician"], active: false }));
  await insertRows(client, company, "member", made);
  const known = ["tomas@fernhollow.example", "ines@fernhollow.example"].map((email) => people.get(email));
  return [...known, ...made.map((each) => each.person_id)].map((id) => PersonId.parse(id));
}

async function insertUnits(client: Client, { company, timeZone }: HistoryPlace, unitYears: readonly number[]) {
  const rows = pastCustomers.map((name, index) => {
    const [customer, site] = [uuidv7(), uuidv7()];
    const units = Array.from({ length: UNITS_A_CUSTOMER }, (_, unit) => {
      const [equipment, circuit] = [uuidv7(), uuidv7()];
      const at = index * UNITS_A_CUSTOMER + unit;
      return { equipment, circuit, name: `Split ${unit + 1}`, year: unitYears[at]!, serial: `INV-${1000 + at}` };
    });
    return { name, customer, site, units };
  });
  await insertRows(
    client,
    company,
    "customer",
    rows.map(({ customer, name }) => ({ id: customer, name })),
  );
  await insertRows(
    client,
    company,
    "site",
    rows.map(({ customer, site }) => ({ id: site, customer_id: customer, name: "Main site", time_zone: timeZone })),
  );
  const all = rows.flatMap(({ customer, site, units }) => units.map((unit) => ({ customer, site, ...unit })));
  await insertRows(
    client,
    company,
    "equipment",
    all.map(({ equipment, site, name, year, serial }) => ({
      id: equipment,
      site_id: site,
      name,
      year_made: year,
      serial,
    })),
  );
  await insertRows(
    client,
    company,
    "circuit",
    all.map(({ circuit, equipment }) => ({
      id: circuit,
      equipment_id: equipment,
      nameplate_refrigerant: circuitColumns.actualRefrigerant,
      ...Object.fromEntries(Object.entries(circuitColumns).map(([key, value]) => [inColumns(key), value])),
    })),
  );
  return all.map(({ customer, site, equipment, circuit }) => ({
    circuit,
    place: { customer_id: customer, site_id: site, equipment_id: equipment },
  }));
}

function inColumns(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/** Numbers for all that is to be written, taken at once. */
async function takeNumbers(client: Client, company: string, past: readonly PastJob[]) {
  const returns = past.filter(({ backDay, unrelatedDay }) => backDay !== null || unrelatedDay !== null).length;
  const take = async (name: string, count: number) => {
    const { rows } = await client.query<{ first: string }>(
      `insert into counter (tenant_id, name, value) values ($1, $2, 1000 + $3::bigint)
       on conflict (tenant_id, name) do update set value = counter.value + $3::bigint returning value - $3::bigint + 1 as first`,
      [company, name, count],
    );
    return Number(rows[0]!.first);
  };
  const order = Math.max(
    await take("work_order", past.length + returns),
    await take("service_call", past.length + returns),
  );
  return { circuit_job: await take("circuit_job", past.length), work_order: order };
}

/** A job's answer by the real fold, once for each kind and story: the rest of them differ in names and days only. */
function summariser() {
  const known = new Map<string, { strength: string; summary: JobSummary; ids: readonly string[] }>();
  return (log: readonly LogEntry[], { kind, story }: PastJob) => {
    const like = known.get(`${kind} ${story}`) ?? fold(log);
    known.set(`${kind} ${story}`, like);
    const verdicts = Object.fromEntries(
      Object.entries(like.summary.verdicts).map(([id, verdict]) => [log[like.ids.indexOf(id)]!.id, verdict]),
    );
    return { strength: like.strength, summary: { ...like.summary, verdicts, closedAt: log[log.length - 1]!.deviceAt } };
  };
}

function fold(log: readonly LogEntry[]) {
  const state = foldJob(log, { judges: rememberedJudges, closingDigest, traces: traceShelf(new Map()) });
  if (state.status !== "closed") throw new Error(`a past job does not close: ${state.missingForClose[0]?.text}`);
  const proof = judgeProof(proofFacts(state, log));
  return { strength: proof.strength, summary: summaryOf(state, proof, log), ids: log.map(({ id }) => id) };
}
