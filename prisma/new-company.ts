import type { Client } from "pg";
import { v7 as uuidv7 } from "uuid";
import { hashPassword } from "@/lib/auth/password";
import type { Role } from "@/lib/auth/roles";

export interface NewPerson {
  name: string;
  email: string;
  phone: string;
  roles: readonly Role[];
}

/** Makes a company, by the migrator: the application may not. Its id. */
export async function createCompany(
  client: Client,
  company: { slug: string; name: string; timeZone: string; ruleSet: "us" | "eu"; isDemo: boolean },
): Promise<string> {
  const id = uuidv7();
  await client.query("insert into gate.company (id, slug) values ($1, $2)", [id, company.slug]);
  await client.query(
    "insert into company (tenant_id, name, time_zone, rule_set, is_demo) values ($1, $2, $3, $4, $5)",
    [id, company.name, company.timeZone, company.ruleSet, company.isDemo],
  );
  return id;
}

/** Makes the person if the address is new, and a member of the company either way; the person's id. */
export async function addPerson(
  client: Client,
  companyId: string,
  person: NewPerson,
  password: string,
): Promise<string> {
  const known = await client.query<{ id: string }>("select id from gate.person where email = $1", [person.email]);
  const id = known.rows[0]?.id ?? uuidv7();
  if (known.rows.length === 0) {
    await client.query("insert into gate.person (id, email, name, password_hash) values ($1, $2, $3, $4)", [
      id,
      person.email,
      person.name,
      await hashPassword(password),
    ]);
  }
  await client.query(
    "insert into member (tenant_id, person_id, name, email, phone, roles) values ($1, $2, $3, $4, $5, $6)",
    [companyId, id, person.name, person.email, person.phone, person.roles],
  );
  return id;
}
