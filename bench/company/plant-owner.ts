import { hash } from "@node-rs/argon2";
import type { Client } from "pg";
import { v7 as uuidv7 } from "uuid";

export const BENCH_PASSWORD = "twelve dry hoses";

/** A company of that name; with an owner who can sign in as owner@slug.example where asked for. The company's id. */
export async function plantCompanyWith(client: Client, slug: string, withOwner: boolean): Promise<string> {
  const id = uuidv7();
  await client.query("insert into gate.company (id, slug) values ($1, $2)", [id, slug]);
  await client.query(
    "insert into company (tenant_id, name, time_zone, is_demo) values ($1, $2, 'America/Chicago', true)",
    [id, `${slug} (invented)`],
  );
  if (!withOwner) return id;
  const [owner, email] = [uuidv7(), `owner@${slug}.example`];
  const kept = [owner, email, "Owner", await hash(BENCH_PASSWORD)];
  await client.query("insert into gate.person (id, email, name, password_hash) values ($1, $2, $3, $4)", kept);
  await client.query(
    "insert into member (tenant_id, person_id, name, email, roles) values ($1, $2, 'Owner', $3, '{owner}')",
    [id, owner, email],
  );
  return id;
}
