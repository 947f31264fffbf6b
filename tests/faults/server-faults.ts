import { setTimeout as delay } from "node:timers/promises";
import { Client, Pool } from "pg";
import type { JobId } from "@/lib/ids";
import type { FreshDatabase } from "../db/fresh-database";

/** What goes wrong in the database while a request of one job is at work, and where in its transaction. */
export const SERVER_FAULTS = [
  "connection-dropped-at-write",
  "connection-dropped-at-commit",
  "serialization-failure-at-write",
  "serialization-failure-at-commit",
  "disk-full-at-write",
  "cancelled-at-commit",
  "deadlock",
] as const;
export type ServerFault = (typeof SERVER_FAULTS)[number];

// The trigger runs in the very transaction it disturbs: before a row is written, or at commit, where it is deferred to.
const PLANT = `
  create schema fault;
  create unlogged table fault.armed (job_id uuid primary key, fault text not null);
  create function fault.strike(which text) returns void language plpgsql as $$
  begin
    case which
      when 'connection-dropped' then
        perform pg_terminate_backend(pg_backend_pid());
        perform pg_sleep(0);
      when 'serialization-failure' then raise exception 'planted' using errcode = '40001';
      when 'disk-full' then raise exception 'planted' using errcode = '53100';
      when 'cancelled' then raise exception 'planted' using errcode = '57014';
      else null;
    end case;
  end $$;
  create function fault.of_job() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
  declare
    armed text;
    job uuid;
  begin
    if tg_table_name = 'trace_chunk' then
      select t.job_id into job from trace t where t.tenant_id = new.tenant_id and t.id = new.trace_id;
    else
      job := new.job_id;
    end if;
    select a.fault into armed from fault.armed a where a.job_id = job;
    if armed like '%' || tg_argv[0] then perform fault.strike(left(armed, length(armed) - length(tg_argv[0]))); end if;
    return new;
  end $$;
  create trigger fault_at_write before insert on entry for each row execute function fault.of_job('-at-write');
  create trigger fault_at_write before insert on trace_chunk for each row execute function fault.of_job('-at-write');
  create constraint trigger fault_at_commit after insert on entry deferrable initially deferred for each row execute function fault.of_job('-at-commit');
  create constraint trigger fault_at_commit after insert on trace_chunk deferrable initially deferred for each row execute function fault.of_job('-at-commit');
`;

/** Arms faults in the database, for one job at a time. */
export class ServerFaults {
  readonly #admin: Pool;
  readonly #url: string;

  private constructor(admin: Pool, url: string) {
    this.#admin = admin;
    this.#url = url;
  }

  static async plant(database: FreshDatabase): Promise<ServerFaults> {
    const admin = new Pool({ connectionString: database.adminUrl, max: 4 });
    await admin.query(PLANT);
    // A deadlock is found after this wait; the default second would be most of a run.
    await admin.query(`alter database ${database.name} set deadlock_timeout = '20ms'`);
    return new ServerFaults(admin, database.adminUrl);
  }

  get admin(): Pool {
    return this.#admin;
  }

  /** Runs a request of the job with the fault armed; it strikes if the request writes. */
  async during<T>(job: JobId, fault: ServerFault, request: () => Promise<T>): Promise<T> {
    if (fault === "deadlock") return this.#besideRival(job, request);
    await this.#admin.query(
      "insert into fault.armed values ($1, $2) on conflict (job_id) do update set fault = excluded.fault",
      [job, fault],
    );
    try {
      return await request();
    } finally {
      await this.#admin.query("delete from fault.armed where job_id = $1", [job]);
    }
  }

  /** Somebody else takes the same locks the other way round: the job's row after what hangs on it. */
  async #besideRival<T>(job: JobId, request: () => Promise<T>): Promise<T> {
    const rival = new Client({ connectionString: this.#url });
    await rival.connect();
    rival.on("error", () => {});
    try {
      await rival.query("begin");
      await rival.query("lock table entry in share row exclusive mode");
      const answer = request();
      answer.catch(() => {});
      for (let asked = 0; asked < 20 && !(await this.#isWaitedFor()); asked++) await delay(5);
      await rival.query("select 1 from circuit_job where id = $1 for update", [job]).catch(() => {});
      await rival.query("rollback").catch(() => {});
      return await answer;
    } finally {
      await rival.end();
    }
  }

  async #isWaitedFor(): Promise<boolean> {
    const { rowCount } = await this.#admin.query(
      "select 1 from pg_locks where relation = 'entry'::regclass and not granted",
    );
    return (rowCount ?? 0) > 0;
  }

  async close(): Promise<void> {
    await this.#admin.end();
  }
}
