import { once } from "node:events";
import { createServer } from "node:http";
import type { AddressInfo, Socket } from "node:net";
import { IDBFactory } from "fake-indexeddb";
import { v4 } from "uuid";
import type { CompanyId, JobId, PersonId } from "@/lib/ids";
import { chunkDigest, type Desk, DeviceStore, keepTrace, pageLocks, sendOwed } from "@/lib/sync/device";
import { type Figure, printWhenStarted } from "./figure";

const SAMPLES = 4 * 3600;
/** As long as the session cookie of a signed-in person is. */
const COOKIE = `next-auth.session-token=${"x".repeat(420)}`;

/** Bytes both ways on the socket for four hours of one gauge at one reading a second, sent by the tablet's own outbox. */
export async function benchWire(): Promise<readonly Figure[]> {
  const samples = Array.from({ length: SAMPLES }, (_, n) => ({
    atMs: 1_764_000_000_000 + n * 1000 + ((n * 7919) % 20),
    value: 310 + Math.round(90 * (1 - Math.exp(-n / 2000))) + ((n * 31) % 4),
    temperatureC: 21 + ((n * 17) % 5) / 10,
  }));
  const desk: Desk = { company: v4() as CompanyId, slug: "north", person: v4() as PersonId };
  const store = new DeviceStore("dryhold", { indexedDB: new IDBFactory() });
  const kept = await keepTrace(store, desk, v4() as JobId, "micron", samples);
  if (!kept.ok) throw new Error(kept.error.code);

  const sockets = new Set<Socket>();
  const server = createServer(async (request, answer) => {
    const parts: Buffer[] = [];
    for await (const part of request) parts.push(part as Buffer);
    answer
      .setHeader("content-type", "application/json")
      .end(JSON.stringify({ digest: chunkDigest(Buffer.concat(parts)) }));
  });
  server.on("connection", (socket) => sockets.add(socket));
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as AddressInfo;
  const outcome = await sendOwed(store, pageLocks(), desk, (path, request) =>
    fetch(`http://127.0.0.1:${port}${path}`, { ...request, headers: { ...request.headers, cookie: COOKIE } }),
  );
  if (outcome.code !== "all-sent") throw new Error(`the readings were not sent: ${outcome.code}`);
  const bytes = [...sockets].reduce((sum, socket) => sum + socket.bytesRead + socket.bytesWritten, 0);
  server.closeAllConnections();
  server.close();
  store.close();
  const asJson = Buffer.byteLength(JSON.stringify(samples));
  return [
    {
      name: "four hours at 1 Hz on the wire, heads and answers included",
      value: bytes / 1000,
      unit: "kB",
      atMost: 90,
      beside: { name: "the same as JSON", value: asJson / 1000 },
    },
  ];
}

await printWhenStarted(import.meta.url, benchWire);
