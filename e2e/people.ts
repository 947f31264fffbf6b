import { type APIRequestContext, type Browser, expect, type Page } from "@playwright/test";
import { demoPassword } from "@/prisma/demo/scenario";

/** The invented people of the demo: what they are and where. */
export const people = {
  dispatcher: "ada@fernhollow.example",
  technician: "tomas@fernhollow.example",
  secondTechnician: "ines@fernhollow.example",
  supervisor: "marek@fernhollow.example",
  owner: "june@fernhollow.example",
  otherOwner: "odile@saltmarsh.example",
  otherTechnician: "bram@saltmarsh.example",
} as const;

export async function signIn(page: Page, email: string, password = demoPassword): Promise<void> {
  await page.goto("/sign-in");
  await page.getByLabel("E-mail").fill(email);
  await page.getByLabel("Password").fill(password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL((url) => url.pathname !== "/sign-in");
}

/** A browser of their own for one person, signed in. */
export async function pageOf(browser: Browser, email: string): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  await signIn(page, email);
  return page;
}

/** Signs a request context in, without a browser. */
export async function signInRequests(request: APIRequestContext, email: string): Promise<void> {
  const { csrfToken } = await (await request.get("/api/auth/csrf")).json();
  const form = { csrfToken, email, password: demoPassword, json: "true" };
  const answer = await request.post("/api/auth/callback/credentials", { form });
  expect(answer.status()).toBe(200);
}
