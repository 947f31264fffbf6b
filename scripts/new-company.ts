import { randomBytes } from "node:crypto";
import { Client } from "pg";
import * as z from "zod";
import { openDatabase } from "@/lib/embedded/database";
import { commandEnv } from "@/lib/env";
import { addPerson, createCompany } from "@/prisma/new-company";

const usage = `npm run company:new -- SLUG "NAME" TIME-ZONE us|eu OWNER-EMAIL "OWNER NAME"
Makes a company with its first owner and prints the owner's first password once.`;

const given = z
  .tuple([
    z.string().regex(/^[a-z0-9](?:[a-z0-9-]{0,46}[a-z0-9])?$/, "SLUG: small letters, digits and hyphens"),
    z.string().min(1).max(200),
    z.string().refine((zone) => isTimeZone(zone), "TIME-ZONE: as in Europe/Dublin"),
    z.enum(["us", "eu"]),
    z.email().toLowerCase(),
    z.string().min(1).max(200),
  ])
  .safeParse(process.argv.slice(2));

if (!given.success) {
  console.error(`${z.prettifyError(given.error)}\n\n${usage}`);
  process.exit(64);
}
const [slug, name, timeZone, ruleSet, email, ownerName] = given.data;
const database = await openDatabase({ projectFolder: process.cwd(), ...commandEnv() });
const client = new Client({ connectionString: database.migratorUrl });
try {
  await client.connect();
  await client.query("begin");
  const known = await client.query("select 1 from gate.person where email = $1", [email]);
  const password = randomBytes(12).toString("base64url");
  const companyId = await createCompany(client, { slug, name, timeZone, ruleSet, isDemo: false });
  await addPerson(
    client,
    companyId,
    { name: ownerName, email, phone: "", roles: ["owner", "supervisor", "dispatcher"] },
    password,
  );
  await client.query("commit");
  const how =
    known.rows.length > 0
      ? "with the password they have"
      : `with the password ${password} (change it under My account)`;
  console.log(`${name} is at /${slug}. ${ownerName} signs in as ${email} ${how}.`);
} finally {
  await client.end();
  await database.release();
}

function isTimeZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
