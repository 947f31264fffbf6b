import { v4, v7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Entry } from "@/lib/hvac/procedure";
import { makeEntry } from "@/lib/sync/protocol";
import type { FieldDevice } from "./field-device";
import type { Plant } from "./play-run";
import { openProvingGround, type ProvingGround } from "./proving-ground";

let ground: ProvingGround;
beforeAll(async () => {
  ground = await openProvingGround();
});
afterAll(() => ground.close());

const SEEDS = Array.from({ length: 40 }, (_, n) => 7_001 + n);

const entriesIn = (request: RequestInit) => (JSON.parse(request.body as string) as { entries: Entry[] }).entries;
const isParcel = (path: string, request: RequestInit) => path.endsWith("/entries") && typeof request.body === "string";

/** Answers a third of the parcels as received, and the transaction behind the answer never commits. */
const acknowledgesBeforeCommit: Plant = {
  ask: (ask) => {
    let parcels = 0;
    return async (path, request) => {
      if (!isParcel(path, request) || parcels++ % 3 !== 0) return ask(path, request);
      const stamp = { receivedSeq: 1_000_000 + parcels, receivedAt: "2026-11-25T08:00:00.000Z", roles: ["technician"] };
      return Response.json({ receipts: entriesIn(request).map(({ id }) => ({ id, stamp })), quarantined: [] });
    };
  },
};

/** Takes an entry it already has for a new one. */
const recognisesNoResend: Plant = {
  ask: (ask) => {
    const known = new Set<string>();
    return async (path, request) => {
      if (!isParcel(path, request)) return ask(path, request);
      const entries = entriesIn(request).map((entry) => {
        if (!known.has(entry.id)) return entry;
        return { ...entry, id: v7(), seq: entry.seq + 1000 };
      });
      for (const { id } of entries) known.add(id);
      return ask(path, { ...request, body: JSON.stringify({ entries }) });
    };
  },
};

/** Leaves the newest entry out of a log and says nothing is missing. */
const leavesOneOut: Plant = {
  ask: (ask) => async (path, request) => {
    const answer = await ask(path, request);
    if (!path.includes("/log") || !answer.ok) return answer;
    const told = (await answer.json()) as { entries: unknown[] };
    return Response.json({ ...told, entries: told.entries.slice(0, -1) });
  },
};

/** Says saved here where the disk refused. */
const saysSavedTooEarly: Plant = {
  device: (device): FieldDevice => ({
    ...device,
    write: (content, nowMs) =>
      device.write(content, nowMs).catch(() => {
        const author = { company: v4(), job: v4(), installation: v4(), person: device.person } as never;
        const writing = { id: v7(), seq: 1, heads: [], deviceAt: new Date(nowMs).toISOString(), clockOffsetMs: null };
        return makeEntry(author, writing as never, content([], []));
      }),
  }),
};

test.each([
  ["a server that acknowledges before it commits", acknowledgesBeforeCommit, /^lost/],
  ["a server that recognises no resend", recognisesNoResend, /^doubled/],
  ["a log that leaves an entry out", leavesOneOut, /folds to another job/],
  ["a device that calls saved what its disk refused", saysSavedTooEarly, /^lost/],
])("%s does not go unnoticed", async (_what, plant, says) => {
  const reports = await ground.play(SEEDS, { plant, untilBroken: true });
  const violations = reports.flatMap((report) => report.violations);
  expect(violations.filter((text) => says.test(text))).not.toEqual([]);
});
