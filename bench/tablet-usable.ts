import { type Figure, median, printWhenStarted } from "./figure";
import { keepProgram, openStart, type ServedTablet, serveTablet } from "./serve-tablet";

const RUNS = 3;
const SLOWER = 4;
const BYTES_PER_S = (1.6 * 1_000_000) / 8;
const ROUND_TRIP_MS = 150; // common practice for a weak mobile link; the limit names only its rate
const WITHIN_S = 3;

/** Seconds until today's visit can be opened: the first time over a weak link on a slow processor, and later with no network. */
export async function benchTabletUsable(): Promise<readonly Figure[]> {
  const tablet = await serveTablet();
  try {
    const cold: number[] = [];
    const offline: number[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      const [first, later] = await measure(tablet);
      cold.push(first);
      offline.push(later);
    }
    return [
      {
        name: "tablet usable, first time, processor 4x slower, 1.6 Mbit/s",
        value: median(cold),
        unit: "s",
        atMost: WITHIN_S,
      },
      { name: "tablet usable, no network, processor 4x slower", value: median(offline), unit: "s" },
    ];
  } finally {
    await tablet.end();
  }
}

async function measure(tablet: ServedTablet): Promise<readonly [number, number]> {
  const context = await tablet.browser.newContext();
  const account = await context.newPage();
  await openStart(account, tablet, { stay: true });
  await account.close();
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send("Network.enable");
  await session.send("Network.clearBrowserCache");
  const rates = { downloadThroughput: BYTES_PER_S, uploadThroughput: BYTES_PER_S };
  await session.send("Network.emulateNetworkConditions", { offline: false, latency: ROUND_TRIP_MS, ...rates });
  await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  const untilUsable = async () => {
    const startedAt = performance.now();
    await page.goto(`${tablet.url}/t/fernhollow`, { waitUntil: "commit" });
    await page
      .getByRole("link", { name: /visit|Go on/ })
      .first()
      .waitFor();
    return (performance.now() - startedAt) / 1000;
  };
  const first = await untilUsable();
  await session.send("Network.emulateNetworkConditions", {
    offline: false,
    latency: 0,
    downloadThroughput: -1,
    uploadThroughput: -1,
  });
  await keepProgram(page);
  await context.setOffline(true);
  const later = await untilUsable();
  await context.close();
  return [first, later];
}

await printWhenStarted(import.meta.url, benchTabletUsable);
