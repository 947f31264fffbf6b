import { Client } from "pg";
import type { DatabaseUrls } from "@/lib/embedded/roles";
import { demoCompanies, demoPassword } from "@/prisma/demo/scenario";
import { mustRun } from "./step";

/** Whether nobody uses this database yet. */
export async function hasNoCompany({ migratorUrl }: DatabaseUrls): Promise<boolean> {
  const client = new Client({ connectionString: migratorUrl });
  await client.connect();
  try {
    const { rows } = await client.query("select 1 from gate.company limit 1");
    return rows.length === 0;
  } finally {
    await client.end();
  }
}

/** Fills the database with the invented demo company, in a process of its own: the seed uses the app's server-only modules. */
export async function seedDemo(
  { databaseUrl, migratorUrl }: DatabaseUrls,
  { history }: { readonly history: boolean } = { history: false },
): Promise<void> {
  const asked = ["--conditions=react-server", "--import", "tsx", "prisma/seed.ts", ...(history ? ["--history"] : [])];
  await mustRun(process.execPath, asked, {
    env: { DATABASE_URL: databaseUrl, MIGRATOR_URL: migratorUrl },
  });
}

/** How to sign in: as the demo's people where there is a demo. */
export async function signInWords({ migratorUrl }: DatabaseUrls): Promise<string> {
  const client = new Client({ connectionString: migratorUrl });
  await client.connect();
  try {
    const { rows } = await client.query("select 1 from company where is_demo limit 1");
    if (rows.length === 0)
      return "Sign in with your own account; `npm run company:new` makes a company and its first owner.";
  } finally {
    await client.end();
  }
  const lines = demoCompanies[0]!.people.map((each) => `  ${each.email.padEnd(28)} ${each.roles.join(", ")}`);
  return [`Sign in to the invented demo company with the password: ${demoPassword}`, ...lines].join("\n");
}
