import type { Client } from "pg";
import { ArchiveFailure } from "./failure";
import type { MigrationMark } from "./frames";

export interface TableToCopy {
  /** Schema and name, quoted where needed. */
  readonly table: string;
  readonly columns: readonly string[];
}

const OURS = `n.nspname !~ '^pg_' and n.nspname <> 'information_schema' and c.relname <> '_prisma_migrations'`;

/** Every table with the columns that hold data, a table after those its keys point at. */
export async function listTables(client: Client): Promise<readonly TableToCopy[]> {
  const { rows } = await client.query<{ table: string; columns: string[]; needs: string[] }>(`
    select format('%I.%I', n.nspname, c.relname) as table,
      (select array_agg(quote_ident(attname) order by attnum) from pg_attribute
       where attrelid = c.oid and attnum > 0 and not attisdropped and attgenerated = '') as columns,
      (select coalesce(array_agg(format('%I.%I', fn.nspname, f.relname)), '{}') from pg_constraint k
       join pg_class f on f.oid = k.confrelid join pg_namespace fn on fn.oid = f.relnamespace
       where k.conrelid = c.oid and k.contype = 'f' and k.confrelid <> c.oid) as needs
    from pg_class c join pg_namespace n on n.oid = c.relnamespace
    where c.relkind = 'r' and ${OURS} order by 1`);
  const ordered: TableToCopy[] = [];
  const placed = new Set<string>();
  while (ordered.length < rows.length) {
    const next = rows.filter(({ table, needs }) => !placed.has(table) && needs.every((need) => placed.has(need)));
    if (next.length === 0) throw new ArchiveFailure("keys-in-a-circle");
    for (const { table, columns } of next) {
      ordered.push({ table, columns });
      placed.add(table);
    }
  }
  return ordered;
}

export async function listSequences(client: Client): Promise<readonly { name: string; value: string }[]> {
  const { rows } = await client.query<{ name: string; value: string }>(`
    select format('%I.%I', schemaname, sequencename) as name, last_value::text as value from pg_sequences
    where last_value is not null and schemaname !~ '^pg_' order by 1`);
  return rows;
}

export async function listMigrations(client: Client): Promise<readonly MigrationMark[]> {
  const { rows } = await client.query<MigrationMark>(`
    select migration_name as name, checksum from _prisma_migrations where rolled_back_at is null order by 1`);
  return rows;
}
