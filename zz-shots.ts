import { chromium } from "@playwright/test";
import serveDemo from "./e2e/serve-demo";
import { mkdirSync } from "node:fs";
import { Client } from "pg";
const out = process.env.OUT ?? "/tmp/h/shots"; mkdirSync(out, { recursive: true });
const stop = await serveDemo();
try {
  const base = process.env.E2E_BASE_URL!;
  const db = new Client({ connectionString: process.env.E2E_DATABASE_URL }); await db.connect();
  const q = async (sql: string) => (await db.query(sql)).rows[0]?.id as string;
  const circuit = await q("select c.id from circuit c join equipment e on e.tenant_id=c.tenant_id and e.id=c.equipment_id where e.serial='BG-2031'");
  const tool = await q("select t.id from tool t join company c on c.tenant_id=t.tenant_id join gate.company g on g.id=c.tenant_id where g.slug='fernhollow' and t.kind='pump' order by t.name limit 1");
  const order = await q("select work_order_id as id from callback b join gate.company g on g.id=b.tenant_id where g.slug='fernhollow' and state='proposed' limit 1");
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
  const ctx = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await ctx.newPage();
  await page.goto(`${base}/sign-in`);
  await page.getByLabel("E-mail").fill("marek@fernhollow.example"); await page.getByLabel("Password").fill("twelve dry hoses");
  await page.getByRole("button", { name: "Sign in" }).click(); await page.waitForURL((u) => u.pathname !== "/sign-in");
  // a leak, a promise, a disposal: pages with something on them
  await page.goto(`${base}/fernhollow/refrigerant/import`);
  const ago = (d: number) => new Date(Date.now() - d * 86400000).toISOString().slice(0, 10);
  await page.getByLabel("or its lines, pasted").fill(`Serial,Added on,Added kg\nBG-2031,${ago(40)},3`);
  await page.getByRole("button", { name: "See what it would do" }).click();
  await page.getByRole("button", { name: "Bring the list in" }).click(); await page.getByText("1 additions").waitFor();
  await page.goto(`${base}/fernhollow/refrigerant/circuits/${circuit}`);
  const form = page.getByRole("region", { name: "Record what was done" });
  await form.getByLabel("Done by").fill("Tomas Reedley"); await form.getByRole("button", { name: "Record it" }).click();
  await page.getByRole("link", { name: "Take it back" }).first().waitFor();
  const gone = page.getByRole("region", { name: "Given up" });
  await gone.getByLabel("Who takes it").fill("Ironbridge Scrap (invented)"); await gone.getByLabel("Receipt or contract").fill("S-114"); await gone.getByRole("button", { name: "Write it down" }).click();
  await page.getByText("Written down").first().waitFor();
  const facts = page.getByRole("region", { name: "What the rules ask about it" });
  await facts.getByLabel("Full charge").fill("21.5"); await facts.getByLabel("Known how").selectOption("measured"); await facts.getByRole("button", { name: "Save" }).click();
  await page.getByText("Saved, and computed anew").first().waitFor();
  await page.reload(); console.log("full charge shown again:", await facts.getByLabel("Full charge").inputValue());
  await page.goto(`${base}/fernhollow/refrigerant/cylinders`);
  const pr = page.getByRole("region", { name: "Promise room or stock" });
  console.log(await pr.getByLabel("Cylinder").locator("option").allTextContents());
  await pr.getByLabel("What for").selectOption("out"); await pr.getByLabel("Refrigerant").fill("R-410A"); await pr.getByLabel("Mass").fill("2"); await pr.getByLabel("Note").fill("Bellweather, Thursday"); 
  for (const o of await pr.getByLabel("Cylinder").locator("option").all()) { await pr.getByLabel("Cylinder").selectOption((await o.getAttribute("value"))!); await pr.getByRole("button", { name: "Promise it" }).click(); await page.waitForTimeout(1500); if (await page.getByRole("region", { name: "What is promised" }).count()) break; }
  const paths: Record<string, string> = { mass: "refrigerant?from=2024-11", cylinders: "refrigerant/cylinders", due: "refrigerant/due", done: "refrigerant/due?show=done", postings: "refrigerant/postings", papers: "refrigerant/papers", import: "refrigerant/import", circuit: `refrigerant/circuits/${circuit}`,
    proof: "quality/proof?span=all", decisions: "quality/decisions", qjobs: "quality/jobs", callbacks: "callbacks", callback: `callbacks/${order}`, causes: "callbacks/causes", tools: "tools", tool: `tools/${tool}` };
  const only = process.env.ONLY?.split(",");
  for (const [name, path] of Object.entries(paths)) { if (only && !only.includes(name)) continue;
    for (const width of [390, 820, 1280]) for (const scheme of ["light", "dark"] as const) {
      if (width === 390 && /mass|cylinders|due|done|postings|papers|import|circuit/.test(name) && scheme === "dark") continue;
      await page.setViewportSize({ width, height: width === 390 ? 844 : 1000 }); await page.emulateMedia({ colorScheme: scheme });
      await page.goto(`${base}/fernhollow/${path}`); await page.getByRole("heading", { level: 1 }).waitFor(); await page.waitForTimeout(150);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      if (over > 0) console.log("sideways", name, width, over);
      await page.screenshot({ path: `${out}/${name}-${width}-${scheme}.png`, fullPage: true });
    }
  }
  if (!only) { // the tool's form pressed
    await page.setViewportSize({ width: 1280, height: 900 }); await page.goto(`${base}/fernhollow/tools/${tool}`);
    const reg = page.getByRole("region", { name: "What the register says of it" });
    await db.query("update tool set oil_run_hours = coalesce(oil_run_hours,0) + 1.5 where id = $1", [tool]);
    const before = await reg.getByLabel("Hours run since then").inputValue();
    await reg.getByLabel("Name").fill("Pump, pressed"); await reg.getByRole("button", { name: "Save" }).click(); await page.waitForURL(/tools$/);
    console.log("tool: shown", before, "kept", (await db.query("select name, oil_run_hours from tool where id=$1", [tool])).rows[0]);
    await page.goto(`${base}/fernhollow/tools/${tool}`);
    const w = page.getByRole("region", { name: "Write down what was done" });
    await w.getByLabel("What was done").selectOption({ label: "Blanked off and tested" }); await w.getByLabel("Lowest reached alone").fill("38"); await w.getByRole("button", { name: "Write it down" }).click();
    await page.getByText("Written down").first().waitFor(); await page.waitForTimeout(800);
    await page.screenshot({ path: `${out}/tool-pressed.png`, fullPage: true });
    await page.goto(`${base}/fernhollow/refrigerant/cylinders`); await page.getByRole("button", { name: /End the promise/ }).first().click(); await page.waitForTimeout(1500);
    console.log("promises left", await page.getByRole("button", { name: /End the promise/ }).count());
    await page.goto(`${base}/fernhollow/refrigerant/circuits/${circuit}`); await page.getByRole("link", { name: "Take it back" }).first().click();
    await page.getByLabel("Why").fill("Wrong unit"); await page.screenshot({ path: `${out}/circuit-withdraw.png` , fullPage: true}); await page.getByRole("button", { name: "Take it back" }).click(); await page.waitForTimeout(1500);
    console.log("taken back:", await page.getByRole("region", { name: "On record" }).getByRole("row").allInnerTexts(), page.url());
  }
  await browser.close(); await db.end();
} finally { await stop(); }
process.exit(0);
