import { type Browser, chromium, type Page } from "@playwright/test";
import { Client } from "pg";
import { people } from "@/e2e/people";
import serveDemo from "@/e2e/serve-demo";
import { demoPassword } from "@/prisma/demo/scenario";
import { buildApp } from "@/scripts/build-app";
import { findChromium } from "@/scripts/chromium";

export interface ServedTablet {
  readonly browser: Browser;
  readonly url: string;
  readonly databaseUrl: string;
  end(): Promise<void>;
}

/** The built app with the demo company, and a browser of a tablet's size to measure it in. */
export async function serveTablet(): Promise<ServedTablet> {
  await buildApp();
  const stop = await serveDemo();
  const executablePath = findChromium();
  const browser = await chromium.launch({
    args: process.getuid?.() === 0 ? ["--no-sandbox"] : [],
    ...(executablePath && { executablePath }),
  });
  return {
    browser,
    url: process.env.E2E_BASE_URL!,
    databaseUrl: process.env.E2E_DATABASE_URL!,
    async end() {
      await browser.close();
      await stop();
    },
  };
}

/** Signs the demo's technician in; with `stay` nothing of the tablet itself is loaded yet. */
export async function openStart(page: Page, tablet: ServedTablet, { stay = false } = {}): Promise<void> {
  await page.setViewportSize({ width: 820, height: 1180 });
  if (stay) await page.route(/\/t\/fernhollow/, (route) => route.abort());
  await page.goto(`${tablet.url}/sign-in`);
  await page.getByLabel("E-mail").fill(people.technician);
  await page.getByLabel("Password").fill(demoPassword);
  await page.getByRole("button", { name: "Sign in" }).click();
  if (stay) await page.waitForRequest(/\/t\/fernhollow/);
  else
    await page
      .getByRole("link", { name: /visit|Go on/ })
      .first()
      .waitFor();
}

/** Waits until the program is kept on the device. */
export async function keepProgram(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    while (active?.state !== "activated") await new Promise((done) => setTimeout(done, 50));
  });
}

/** The job of the technician's visit of today. */
export async function jobOf({ databaseUrl }: ServedTablet): Promise<string> {
  const client = new Client({ connectionString: databaseUrl });
  await client.connect();
  try {
    const { rows } = await client.query<{ id: string }>(
      `select j.id from circuit_job j join visit v on v.tenant_id = j.tenant_id and v.work_order_id = j.work_order_id
       join visit_person p on p.tenant_id = v.tenant_id and p.visit_id = v.id
       join gate.person g on g.id = p.person_id where g.email = $1 and j.state <> 'closed' limit 1`,
      [people.technician],
    );
    return rows[0]!.id;
  } finally {
    await client.end();
  }
}
