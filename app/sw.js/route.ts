import { readFile } from "node:fs/promises";
import { servingEnv } from "@/lib/env";

/** The tablet's service worker, written beside the build; never kept by the browser, so that a new build is seen at once. */
export async function GET() {
  if (servingEnv().NODE_ENV !== "production") return new Response(null, { status: 404 });
  const source = await readFile(".next/service-worker.js");
  return new Response(source, {
    headers: { "content-type": "text/javascript; charset=utf-8", "cache-control": "no-cache" },
  });
}
