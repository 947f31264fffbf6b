import type { Client } from "pg";

const types = new Map<string, ReadonlyMap<string, string>>();

/** Inserts rows of one company in one statement; the columns are those the first row names. */
export async function insertRows(client: Client, company: string, table: string, rows: readonly object[]) {
  if (rows.length === 0) return;
  const known = types.get(table) ?? (await readTypes(client, table));
  types.set(table, known);
  const columns = Object.keys(rows[0]!);
  const shape = columns.map((column) => `${column} ${known.get(column)}`).join(", ");
  await client.query(
    `insert into ${table} (tenant_id, ${columns.join(", ")}) select $1, ${columns.join(", ")}
     from jsonb_to_recordset($2::jsonb) as given(${shape})`,
    [company, JSON.stringify(rows)],
  );
}

async function readTypes(client: Client, table: string): Promise<ReadonlyMap<string, string>> {
  const { rows } = await client.query<{ name: string; type: string }>(
    "select attname as name, format_type(atttypid, atttypmod) as type from pg_attribute where attrelid = $1::regclass and attnum > 0",
    [table],
  );
  return new Map(rows.map(({ name, type }) => [name, type]));
}
