import type { Client } from "pg";
import { preTenantFunctions, preTenantTables } from "@/lib/db/pre-tenant-list";

/** Rows the application may take away again; everything else is archived, ended or superseded. */
const DELETABLE = ["public.visit_person", "public.certificate", "public.duty", "public.duty_stale"];
/** What happened stays as it was told. */
const APPEND_ONLY = [
  "public.entry",
  "public.trace",
  "public.trace_chunk",
  "public.verdict",
  "public.office_event",
  "public.posting",
  "public.refrigerant_document",
  "public.law_event",
];

const OURS = "n.nspname !~ '^pg_' and n.nspname <> 'information_schema'";
const TENANT_CONDITION = "(tenant_id = ( SELECT app_tenant() AS app_tenant))";
/** Tables that must be held to one tenant: all but the named ones from before a tenant is known and the list of migrations. */
const TENANT_TABLES = `
  select c.oid, c.oid::regclass::text as name, c.relrowsecurity, c.relforcerowsecurity
  from pg_class c join pg_namespace n on n.oid = c.relnamespace
  where c.relkind in ('r', 'p') and ${OURS}
    and n.nspname || '.' || c.relname <> all ($1) and n.nspname || '.' || c.relname <> 'public._prisma_migrations'`;

/** Each way in which something in this database is out of reach of row-level security, or the application may do more than it should. */
export async function listEscapes(client: Client): Promise<readonly string[]> {
  const escapes: string[] = [];
  for (const { sql, values } of QUESTIONS) {
    const { rows } = await client.query<{ escape: string }>(sql, values ? [...values] : []);
    escapes.push(...rows.map((row) => row.escape));
  }
  return escapes.sort();
}

const QUESTIONS: readonly { readonly sql: string; readonly values?: readonly unknown[] }[] = [
  {
    sql: `with t as (${TENANT_TABLES})
      select name || ': row-level security is not forced' as escape from t where not (relrowsecurity and relforcerowsecurity)
      union all
      select name || ': no policy' from t where not exists (select from pg_policy p where p.polrelid = t.oid)
      union all
      select name || ': policy ' || polname || ' is not the tenant policy' from t join pg_policy p on p.polrelid = t.oid
      where pg_get_expr(polqual, polrelid) is distinct from $2 or pg_get_expr(polwithcheck, polrelid) is distinct from $2
         or not polpermissive or polcmd <> '*' or polroles <> '{0}'
      union all
      select name || ': tenant_id is not a required uuid' from t
      where not exists (select from pg_attribute a where a.attrelid = t.oid and a.attname = 'tenant_id'
                        and a.atttypid = 'uuid'::regtype and a.attnotnull)`,
    values: [preTenantTables, TENANT_CONDITION],
  },
  {
    sql: `with t as (${TENANT_TABLES})
      select name || ': no primary key' as escape from t
      where not exists (select from pg_index i where i.indrelid = t.oid and i.indisprimary)
      union all
      select name || ': unique index ' || i.indexrelid::regclass || ' does not begin with tenant_id'
      from t join pg_index i on i.indrelid = t.oid and i.indisunique
      left join pg_attribute a on a.attrelid = t.oid and a.attnum = i.indkey[0]
      where a.attname is distinct from 'tenant_id'
      union all
      select name || ': exclusion ' || k.conname || ' does not name tenant_id' from t join pg_constraint k on k.conrelid = t.oid
      where k.contype = 'x' and not exists (select from pg_attribute a
        where a.attrelid = t.oid and a.attname = 'tenant_id' and a.attnum = any (k.conkey))
      union all
      select name || ': foreign key ' || k.conname || ' does not begin with tenant_id on both sides'
      from t join pg_constraint k on k.conrelid = t.oid and k.contype = 'f'
      join pg_attribute a on a.attrelid = k.conrelid and a.attnum = k.conkey[1]
      join pg_attribute b on b.attrelid = k.confrelid and b.attnum = k.confkey[1]
      where a.attname <> 'tenant_id' or b.attname <> 'tenant_id'`,
    values: [preTenantTables],
  },
  {
    sql: `select n.nspname || '.' || c.relname || ': ' || case c.relkind when 'v' then 'view is not security_invoker'
        when 'm' then 'materialized view' else 'foreign table' end as escape
      from pg_class c join pg_namespace n on n.oid = c.relnamespace
      where ${OURS} and (c.relkind in ('m', 'f') or c.relkind = 'v'
        and coalesce(not c.reloptions && array['security_invoker=true', 'security_invoker=on', 'security_invoker=1'], true))`,
  },
  {
    sql: `with f as (select p.oid, n.nspname || '.' || p.proname as name, p.proacl, p.proconfig, p.proowner
        from pg_proc p join pg_namespace n on n.oid = p.pronamespace where p.prosecdef and ${OURS})
      select name || ': security definer outside the named list' as escape from f where name <> all ($1)
      union all select name || ': more than one function of a named look-up''s name' from f group by name having count(*) > 1
      union all select name || ': security definer with a search_path of the caller' from f
        where not coalesce(proconfig && array['search_path=""', 'search_path='], false)
      union all select name || ': security definer that everybody may run' from f
        where proacl is null or exists (select from aclexplode(proacl) where grantee = 0)
      union all select name || ': security definer not owned by the migrator' from f
        where proowner::regrole::text <> 'dryhold_migrator'
      union all select named || ': on the named list, but not in the database' from unnest($1::text[]) named
        where named not in (select name from f)`,
    values: [preTenantFunctions],
  },
  {
    sql: `select named || ': on the list of tables without a tenant, but not in the database' as escape from unnest($1::text[]) named
      where to_regclass(named) is null`,
    values: [preTenantTables],
  },
  {
    sql: `with r as (select c.oid, n.nspname || '.' || c.relname as name, c.relkind, c.relacl from pg_class c
        join pg_namespace n on n.oid = c.relnamespace where c.relkind in ('r', 'p', 'v', 'S') and ${OURS})
      select name || ': everybody has a right on it' as escape from r where exists (select from aclexplode(relacl) where grantee = 0)
      union all
      select name || ': the application may ' || lower(a.privilege_type) from r, aclexplode(r.relacl) a
      where a.grantee = 'dryhold_app'::regrole and (a.is_grantable or relkind = 'S'
        or a.privilege_type not in ('SELECT', 'INSERT', 'UPDATE', 'DELETE')
        or a.privilege_type = 'DELETE' and name <> all ($2)
        or a.privilege_type = 'UPDATE' and name = any ($3)
        or name = any ($1) or name = 'public._prisma_migrations')
      union all
      select name || '.' || attname || ': the application has a right on a single column' from r join pg_attribute on attrelid = r.oid,
        aclexplode(attacl) a where a.grantee in ('dryhold_app'::regrole, 0) and (name = any ($1) or name = any ($3))`,
    values: [preTenantTables, DELETABLE, APPEND_ONLY],
  },
  {
    sql: `select rolname || ': has rights above row-level security' as escape from pg_roles
      where rolname = 'dryhold_app' and (rolsuper or rolbypassrls or rolcreaterole or rolcreatedb or rolreplication)
      union all select 'dryhold_app: is a member of ' || roleid::regrole from pg_auth_members where member = 'dryhold_app'::regrole
      union all select 'dryhold_app: owns ' || c.oid::regclass from pg_class c where relowner = 'dryhold_app'::regrole
      union all select 'dryhold_app: owns ' || p.oid::regprocedure from pg_proc p where proowner = 'dryhold_app'::regrole
      union all select 'dryhold_app: may create in schema ' || n.nspname from pg_namespace n
        where ${OURS} and has_schema_privilege('dryhold_app', n.oid, 'create')
      union all select 'dryhold_app: may create schemas' where has_database_privilege('dryhold_app', current_database(), 'create')
      union all select 'default privileges: give the application or everybody rights on what is made later' from pg_default_acl d,
        aclexplode(d.defaclacl) a where a.grantee in ('dryhold_app'::regrole, 0)`,
  },
];
