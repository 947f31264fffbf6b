import { mkdirSync } from "node:fs";
import { chromium, type Page } from "@playwright/test";
import { demoPassword } from "@/prisma/demo/scenario";
import { findChromium } from "./chromium";

// The README's pictures, taken from the invented demo company of a running app: npm run pictures -- http://localhost:3000

const [base = "http://localhost:3000"] = process.argv.slice(2);
const folder = "docs/pictures";
mkdirSync(folder, { recursive: true });
const executablePath = findChromium();
const browser = await chromium.launch({
  args: process.getuid?.() === 0 ? ["--no-sandbox"] : [],
  ...(executablePath && { executablePath }),
});
try {
  const office = await signedIn("marek@fernhollow.example", { width: 1280, height: 800 });
  await office.goto(`${base}/fernhollow/jobs?show=closed`);
  await office.getByRole("table").getByRole("link").first().click();
  await office.getByRole("heading", { level: 1, name: /^Job/ }).waitFor();
  await office.screenshot({ path: `${folder}/job-proven.png`, fullPage: true });
  await office.goto(`${base}/fernhollow/board`);
  await office.screenshot({ path: `${folder}/board.png` });
} finally {
  await browser.close();
}

async function signedIn(email: string, viewport: { width: number; height: number }): Promise<Page> {
  const page = await (await browser.newContext({ viewport })).newPage();
  await page.goto(`${base}/sign-in`);
  await page.getByLabel("E-mail").fill(email);
  await page.getByLabel("Password").fill(demoPassword);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL((url) => url.pathname !== "/sign-in");
  return page;
}
