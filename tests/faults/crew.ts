import { v7 as uuidv7 } from "uuid";
import type { Role } from "@/lib/auth/roles";
import { endAllSessions, openSession } from "@/lib/db/gate";
import { openJob } from "@/lib/db/jobs";
import { appendOfficeEntry } from "@/lib/db/office-entry";
import { withTenant } from "@/lib/db/tenant";
import { planVisit, replanVisit } from "@/lib/db/visits";
import type { EntryContent } from "@/lib/hvac/procedure";
import { type JobId, PersonId } from "@/lib/ids";
import type { Ask } from "@/lib/sync/device";
import { type Planted, plantCompany, type TwoCompanies } from "../db/two-companies";
import { type Serve, sessionCookie } from "./serve-routes";
import type { ServerFaults } from "./server-faults";

/** A company in which one run after the other takes place: two technicians, a supervisor, and jobs made as they are needed. */
export class Crew {
  readonly technicians: readonly PersonId[];
  readonly #cookies = new Map<PersonId, string>();
  readonly #ended = new Map<PersonId, string>();
  readonly #changed = new Set<PersonId>();

  private constructor(
    readonly company: Planted,
    readonly server: ServerFaults,
    readonly serve: Serve,
    second: PersonId,
  ) {
    this.technicians = [company.technician.personId, second];
  }

  static async plant(database: TwoCompanies, server: ServerFaults, serve: Serve, slug: string): Promise<Crew> {
    const company = await plantCompany(database, slug);
    const second = PersonId.parse(uuidv7());
    await server.admin.query(
      "insert into gate.person (id, email, name, password_hash) values ($1, $2, 'Second', 'x')",
      [second, `second@${slug}.example`],
    );
    await server.admin.query(
      "insert into member (tenant_id, person_id, name, email, roles) values ($1, $2, 'Second', $3, '{technician}')",
      [company.company, second, `second@${slug}.example`],
    );
    return new Crew(company, server, serve, second);
  }

  /** A job of its own for a run, with a visit both technicians are on; back to where everybody may work. */
  async newRun(): Promise<{ job: JobId; takeOff: (person: PersonId) => Promise<void> }> {
    for (const person of this.technicians) {
      if (this.#changed.delete(person)) await this.setMember(person, TECHNICIAN);
      await this.signIn(person);
    }
    const { workOrderId, circuitId, dispatcher } = this.company;
    const plan = { window: null, plannedStart: null, plannedMinutes: 60 };
    const made = await this.inCompany(async (tx) => {
      await tx.circuitJob.updateMany({ where: { workOrderId }, data: { workOrderId: await this.#spareOrder(tx) } });
      const job = await openJob(tx, { workOrderId, circuitId, kind: "leak_repair" }, dispatcher);
      const visit = await planVisit(tx, workOrderId, { ...plan, people: this.technicians });
      if (!job.ok || !visit.ok) throw new Error("the run's job could not be opened");
      return { job: job.value, visit: visit.value };
    });
    const takeOff = async (person: PersonId) => {
      const people = this.technicians.filter((each) => each !== person);
      await this.inCompany((tx) => replanVisit(tx, made.visit, 1, { ...plan, people }));
    };
    return { job: made.job, takeOff };
  }

  askOf(person: PersonId): Ask {
    return (path, request) => this.serve(path, request, this.#cookies.get(person) ?? this.#ended.get(person) ?? "");
  }

  /** Signs in again where the session was ended. */
  async signIn(person: PersonId): Promise<void> {
    if (this.#cookies.has(person)) return;
    const session = uuidv7();
    await again(() => openSession(session, person, "tablet", 3600));
    this.#cookies.set(person, await sessionCookie(session, person));
  }

  /** Every session of the person ends, as after a sign-out everywhere or when it runs out. */
  async endSessions(person: PersonId): Promise<void> {
    await again(() => endAllSessions(person));
    this.#ended.set(person, this.#cookies.get(person) ?? "");
    this.#cookies.delete(person);
  }

  async setMember(person: PersonId, { roles, active }: { roles: readonly Role[]; active: boolean }): Promise<void> {
    this.#changed.add(person);
    await this.server.admin.query("update member set roles = $3, active = $4 where tenant_id = $1 and person_id = $2", [
      this.company.company,
      person,
      roles,
      active,
    ]);
  }

  writeFromOffice(job: JobId, content: EntryContent) {
    return this.inCompany((tx) => appendOfficeEntry(tx, job, this.company.supervisor, content));
  }

  inCompany<T>(work: Parameters<typeof withTenant<T>>[1]): Promise<T> {
    return again(() => withTenant(this.company.company, work));
  }

  // A circuit has one job to an order; jobs of runs that are over hang on another order.
  #spare: string | undefined;
  async #spareOrder(tx: Parameters<Parameters<typeof withTenant>[1]>[0]): Promise<string> {
    if (this.#spare === undefined) {
      const id = uuidv7();
      const { serviceCallId } = (await tx.workOrder.findFirst({ where: { id: this.company.workOrderId } }))!;
      await tx.workOrder.create({ data: { id, number: 1_000_000, serviceCallId } });
      this.#spare = id;
    }
    return this.#spare;
  }
}

const TECHNICIAN = { roles: ["technician"], active: true } as const;

/** The harness' own work is tried again when it is handed one of the connections it had dropped. */
async function again<T>(work: () => Promise<T>, left = 4): Promise<T> {
  try {
    return await work();
  } catch (problem) {
    if (left === 0 || !/terminat|closed|ECONNRESET|expired/i.test(String(problem))) throw problem;
    return again(work, left - 1);
  }
}
