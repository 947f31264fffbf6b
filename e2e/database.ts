import { Pool } from "pg";

let pool: Pool | undefined;

/** Asks the database of this run, past the policies: for looking at what a request left behind, never for making it. */
export async function ask<Row extends object>(sql: string, values: unknown[] = []): Promise<Row[]> {
  pool ??= new Pool({ connectionString: process.env.E2E_DATABASE_URL, max: 2, allowExitOnIdle: true });
  return (await pool.query<Row>(sql, values)).rows;
}

/** Every row of a company, table by table, as one digest each: equal before and after means nothing was written. */
export async function stateOf(slug: string): Promise<Record<string, string>> {
  const tables = await ask<{ name: string }>(
    `select table_name as name from information_schema.columns
     where table_schema = 'public' and column_name = 'tenant_id' order by 1`,
  );
  const states = await ask<{ name: string; state: string }>(
    tables
      .map(
        ({ name }) =>
          `select '${name}' as name, count(*) || ' ' || coalesce(md5(string_agg(to_jsonb(t)::text, chr(10) order by to_jsonb(t)::text)), '') as state
           from ${name} t where tenant_id = (select id from gate.company where slug = $1)`,
      )
      .join(" union all "),
    [slug],
  );
  return Object.fromEntries(states.map(({ name, state }) => [name, state]));
}

/** One id of each kind of thing a company has. */
export async function idsOf(slug: string): Promise<Record<string, string>> {
  const of = async (sql: string) => {
    const [row] = await ask<{ id: string }>(
      `select (${sql})::text as id from gate.company g where slug = $1`.replaceAll("$own", "tenant_id = g.id"),
      [slug],
    );
    return row!.id;
  };
  return {
    customerId: await of("select customer_id from service_call where $own order by number limit 1"),
    siteId: await of("select site_id from service_call where $own order by number limit 1"),
    equipmentId: await of("select equipment_id from service_call where $own order by number limit 1"),
    circuitId: await of("select circuit_id from circuit_job where $own order by number limit 1"),
    callId: await of("select id from service_call where $own order by number limit 1"),
    orderId: await of("select id from work_order where $own order by number limit 1"),
    visitId: await of("select id from visit where $own order by id limit 1"),
    jobId: await of("select id from circuit_job where $own order by number limit 1"),
    toolId: await of("select id from tool where $own order by id limit 1"),
    cylinderId: await of("select id from cylinder where $own order by id limit 1"),
    personId: await of(
      "select person_id from member where $own and 'technician' = any (roles) order by person_id limit 1",
    ),
  };
}
