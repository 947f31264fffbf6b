import { randomBytes } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Pool } from "pg";
import { freePort } from "@/lib/embedded/launch";
import { prepareDatabase } from "@/lib/embedded/roles";
import { startEmbedded } from "@/lib/embedded/server";
import { demoPassword } from "@/prisma/demo/scenario";
import { migrateDatabase } from "@/prisma/migrate";
import { buildApp } from "@/scripts/build-app";
import { seedDemo } from "@/scripts/seed-demo";
import { serveApp } from "@/scripts/serve-app";
import { type Figure, median, printWhenStarted } from "./figure";
import { signIn } from "./sign-in";

const USERS = 50;
const SECONDS = 15;

/** A work order's page for 50 people at once on the built app, beside its queries alone on the same server. */
export async function benchWorkOrderPage(): Promise<readonly Figure[]> {
  await buildApp();
  const dataFolder = mkdtempSync(join(tmpdir(), "dryhold-bench-"));
  const server = await startEmbedded({ projectFolder: process.cwd(), dataFolder });
  try {
    const urls = await prepareDatabase(server);
    await migrateDatabase(urls);
    await seedDemo(urls);
    const admin = new Pool({ connectionString: urls.migratorUrl, max: 1 });
    const { rows } = await admin.query<{ tenant: string; id: string }>(
      "select o.tenant_id as tenant, o.id from work_order o join gate.company g on g.id = o.tenant_id where slug = 'fernhollow' limit 1",
    );
    await admin.end();
    const order = rows[0]!;
    const sql = await measureSql(urls.databaseUrl, order);
    const page = await measurePage(urls.databaseUrl, order.id);
    const beside = (name: string, value: number) => ({ name: `its SQL alone, ${name}`, value });
    return [
      {
        name: "work-order page, 50 users, requests a second",
        value: page.perS,
        unit: "1/s",
        beside: beside("a second", sql.perS),
      },
      {
        name: "work-order page, 50 users, median",
        value: page.medianMs,
        unit: "ms",
        beside: beside("median", sql.medianMs),
      },
      {
        name: "work-order page, 50 users, 95 in 100 within",
        value: page.p95Ms,
        unit: "ms",
        beside: beside("95 in 100", sql.p95Ms),
      },
    ];
  } finally {
    await server.release();
    rmSync(dataFolder, { recursive: true, force: true });
  }
}

async function measurePage(databaseUrl: string, orderId: string) {
  const port = await freePort();
  const publicUrl = `http://localhost:${port}`;
  const secret = randomBytes(32).toString("base64url");
  const app = await serveApp({ mode: "start", host: "127.0.0.1", port, databaseUrl, secret, publicUrl, quiet: true });
  try {
    const cookie = await signIn(publicUrl, "ada@fernhollow.example", demoPassword);
    return await manyAtOnce(async () => {
      const answer = await fetch(`${publicUrl}/fernhollow/work-orders/${orderId}`, { headers: { cookie } });
      const body = await answer.text();
      if (answer.status !== 200 || !body.includes("Circuit jobs"))
        throw new Error(`the page answered ${answer.status}`);
    });
  } finally {
    await app.stop();
  }
}

/** What the page asks of the database, as plain SQL on as many connections as the app has. */
async function measureSql(databaseUrl: string, order: { tenant: string; id: string }) {
  const pool = new Pool({ connectionString: databaseUrl, max: 10 });
  const queries = [
    "select * from work_order where id = $1",
    "select c.*, k.name, k.phone, s.name, s.street, s.city, s.postal_code, s.time_zone, s.access_note, e.name, e.maker, e.model, e.serial from service_call c join work_order o on o.tenant_id = c.tenant_id and o.service_call_id = c.id join customer k on k.tenant_id = c.tenant_id and k.id = c.customer_id join site s on s.tenant_id = c.tenant_id and s.id = c.site_id left join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id where o.id = $1",
    "select v.*, m.name from visit v left join visit_person p on p.tenant_id = v.tenant_id and p.visit_id = v.id left join member m on m.tenant_id = p.tenant_id and m.person_id = p.person_id where v.work_order_id = $1 order by v.planned_start",
    "select j.*, c.*, e.id, e.name from circuit_job j join circuit c on c.tenant_id = j.tenant_id and c.id = j.circuit_id join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id where j.work_order_id = $1 order by j.number",
    "select c.id, c.name, c.refrigerant_state, c.actual_refrigerant, e.name from circuit c join equipment e on e.tenant_id = c.tenant_id and e.id = c.equipment_id join service_call s on s.tenant_id = e.tenant_id and s.site_id = e.site_id join work_order o on o.tenant_id = s.tenant_id and o.service_call_id = s.id where o.id = $1 and c.archived_at is null and e.archived_at is null order by c.name",
    "select m.person_id, m.name, t.kind, t.expires_on from member m left join certificate t on t.tenant_id = m.tenant_id and t.person_id = m.person_id where m.active and 'technician' = any (m.roles) and $1::uuid is not null order by m.name",
  ];
  try {
    return await manyAtOnce(async () => {
      const client = await pool.connect();
      try {
        await client.query("begin");
        await client.query("select set_config('app.tenant_id', $1, true)", [order.tenant]);
        for (const sql of queries) await client.query(sql, [order.id]);
        await client.query("commit");
      } finally {
        client.release();
      }
    });
  } finally {
    await pool.end();
  }
}

/** Fifty that each ask again as soon as they were answered, for a while, after a warm-up that is not counted. */
async function manyAtOnce(ask: () => Promise<void>) {
  for (let n = 0; n < 20; n += 1) await ask();
  const took: number[] = [];
  const began = performance.now();
  const endsAt = began + SECONDS * 1000;
  const user = async () => {
    while (performance.now() < endsAt) {
      const asked = performance.now();
      await ask();
      took.push(performance.now() - asked);
    }
  };
  await Promise.all(Array.from({ length: USERS }, user));
  const sorted = took.sort((a, b) => a - b);
  const perS = took.length / ((performance.now() - began) / 1000);
  return { perS, medianMs: median(sorted), p95Ms: sorted[Math.floor(sorted.length * 0.95)]! };
}

await printWhenStarted(import.meta.url, benchWorkOrderPage);
