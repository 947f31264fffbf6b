/*
 * Keeps the tablet's program on the device, so that its pages open with no network. It touches nothing else: what people
 * wrote is in the device's store, and every request to the server's interface goes out as it is.
 */

/** The names of one build, put in front of this file when the app is built. */
declare const PROGRAM: { readonly build: string; readonly files: readonly string[] };

interface Extendable extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Extendable {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface WorkerScope {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(kind: "install" | "activate", handle: (event: Extendable) => void): void;
  addEventListener(kind: "fetch", handle: (event: Fetching) => void): void;
  addEventListener(kind: "message", handle: (event: MessageEvent) => void): void;
}
const worker = self as unknown as WorkerScope; // the compiler knows the page's globals, not a service worker's

const SHELL = "/tablet-shell";
const PREFIX = "tablet ";
const CACHE = PREFIX + PROGRAM.build;
const AT_ONCE = 6;

worker.addEventListener("install", (event) => event.waitUntil(fill()));
worker.addEventListener("activate", (event) => event.waitUntil(tidy().then(() => worker.clients.claim())));
worker.addEventListener("message", (event) => {
  if (event.data === "take-over") void worker.skipWaiting();
});
worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== worker.location.origin) return;
  if (request.mode === "navigate") {
    if (url.pathname === "/t" || url.pathname.startsWith("/t/")) event.respondWith(shell(request));
  } else if (url.pathname.startsWith("/_next/static/") || url.pathname.startsWith("/icons/")) {
    event.respondWith(keptOrFetched(request));
  }
});

/** All of it or nothing: a program with a part missing would stop in a cellar. */
async function fill(): Promise<void> {
  const cache = await caches.open(CACHE);
  const page = await fetched(new Request(SHELL, { cache: "no-store", credentials: "omit" }));
  const text = (await page.clone().text()).replaceAll(/<script[^>]* nomodule[^>]*>/gi, ""); // for browsers older than this file
  const named = new Set(text.match(/\/_next\/static\/[\w./~-]+\.(?:js|css)/g) ?? []);
  for (const file of named)
    if (!PROGRAM.files.includes(file)) throw new Error(`the page is of another build than this program: ${file}`);
  const missing = [...PROGRAM.files];
  async function fetchNext(): Promise<void> {
    for (let file = missing.shift(); file !== undefined; file = missing.shift()) {
      const known = await caches.match(file); // names carry a digest: a file of an earlier build is the same file
      await cache.put(file, known ?? (await fetched(new Request(file))));
    }
  }
  await Promise.all(Array.from({ length: AT_ONCE }, fetchNext));
  await cache.put(SHELL, page);
}

async function fetched(request: Request): Promise<Response> {
  const response = await fetch(request);
  if (!response.ok || response.redirected) throw new Error(`${request.url} answered ${response.status}`);
  return response;
}

/** The build before stays too: a page of it may still be open and ask for a part it has not needed so far. */
async function tidy(): Promise<void> {
  const ours = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(ours.slice(0, -1).map((name) => caches.delete(name)));
}

async function shell(request: Request): Promise<Response> {
  const kept = await (await caches.open(CACHE)).match(SHELL);
  return kept ?? fetch(request);
}

async function keptOrFetched(request: Request): Promise<Response> {
  return (await caches.match(request)) ?? fetch(request);
}
