import { defineConfig, devices } from "@playwright/test";
import { findJourneyChromium } from "./scripts/chromium";

const isRoot = process.getuid?.() === 0;
const QUIET = [
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-domain-reliability",
  "--disable-sync",
  "--no-first-run",
  "--no-pings",
];
const executablePath = findJourneyChromium();

export default defineConfig({
  testDir: "e2e",
  outputDir: process.env.E2E_RESULTS ?? "test-results",
  globalSetup: "./e2e/serve-demo.ts",
  workers: 1, // one app, one database, two cores
  retries: 0, // a journey that passes the second time is broken
  timeout: 90_000,
  expect: { timeout: 15_000 }, // two halves share two cores
  reporter: "list",
  forbidOnly: true,
  use: {
    ...devices["Desktop Chrome"],
    viewport: { width: 1280, height: 800 },
    ...(process.env.E2E_BASE_URL && { baseURL: process.env.E2E_BASE_URL }),
    launchOptions: {
      args: isRoot ? [...QUIET, "--no-sandbox"] : QUIET,
      ...(executablePath && { executablePath }),
    },
    screenshot: "only-on-failure",
    trace: process.env.E2E_TRACE ? "retain-on-failure" : "off", // films every page: half of the time
  },
});
