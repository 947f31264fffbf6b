import { Client, DatabaseError } from "pg";
import { MigrationFailure } from "./apply-migrations";

/** The role the application logs in as; the migrations grant to it by this name. */
export const APP_ROLE = "dryhold_app";

const INSUFFICIENT_PRIVILEGE = "42501";

/**
 * Makes the application's role where the migrator may, with the password of `DATABASE_URL`; else says what an
 * administrator has to run. On the embedded server it exists already.
 */
export async function ensureAppRole(migrator: Client, databaseUrl: string): Promise<void> {
  const found = await migrator.query("select 1 from pg_roles where rolname = $1", [APP_ROLE]);
  if (found.rowCount !== 0) return;
  const url = new URL(databaseUrl);
  const isAppLogin = decodeURIComponent(url.username) === APP_ROLE;
  const login = isAppLogin ? `login password ${migrator.escapeLiteral(decodeURIComponent(url.password))}` : "nologin";
  try {
    await migrator.query(`create role ${APP_ROLE} nosuperuser nocreatedb nocreaterole nobypassrls ${login}`);
  } catch (error) {
    if (!(error instanceof DatabaseError) || error.code !== INSUFFICIENT_PRIVILEGE) throw error;
    throw new MigrationFailure(
      `The role ${APP_ROLE} does not exist and MIGRATOR_URL may not make it. As an administrator run:\n` +
        `  create role ${APP_ROLE} login nosuperuser nocreatedb nocreaterole nobypassrls password '…';`,
    );
  }
}

/** Refuses an application login that could see past the policies or own what it uses, whatever the server's administrator gave it. */
export async function requireHarmlessAppLogin(databaseUrl: string): Promise<void> {
  const client = new Client({ connectionString: databaseUrl });
  await client.connect();
  try {
    const { rows } = await client.query<{ login: string; above: boolean; owns: string | null; member: boolean }>(`
      select current_user as login,
             exists (select from pg_roles r where pg_has_role(current_user, r.oid, 'member')
                     and (r.rolsuper or r.rolbypassrls or r.rolcreaterole)) as above,
             (select min(c.oid::regclass::text) from pg_class c
              where pg_has_role(current_user, c.relowner, 'member')
                and c.relnamespace::regnamespace::text !~ '^(pg_|information_schema)') as owns,
             pg_has_role(current_user, '${APP_ROLE}', 'usage') as member`);
    const { login, above, owns, member } = rows[0]!;
    if (above) throw new MigrationFailure(`DATABASE_URL logs in as ${login}, which can step past row-level security.`);
    if (owns)
      throw new MigrationFailure(
        `DATABASE_URL logs in as ${login}, which owns ${owns}; the application must own nothing.`,
      );
    if (!member)
      throw new MigrationFailure(`DATABASE_URL logs in as ${login}; grant it the role: grant ${APP_ROLE} to ${login};`);
  } finally {
    await client.end();
  }
}
