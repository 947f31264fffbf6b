import { listOwedLinks, noteLinkSent } from "./certificate-links";
import type { DeviceLocks } from "./device-lock";
import type { Desk } from "./device-rows";
import { type DeviceStore, noteServerClock } from "./device-store";
import { type EntriesAnswer, listOwedChunks, nextBatch, takeAnswer } from "./outbox";
import { listOwedPictures, pictureBody } from "./pictures";

/** How a round of sending ended. Nothing is lost by any of them: what was not acknowledged is still here. */
export type SendOutcome =
  | { readonly code: "all-sent" }
  | { readonly code: "another-tab-sends" }
  | { readonly code: "no-network" }
  | { readonly code: "signed-out" }
  /** The company or the job no longer looks as if it existed for this person. */
  | { readonly code: "not-found" }
  | { readonly code: "server-trouble"; readonly status: number };

export type Ask = (path: string, request: RequestInit) => Promise<Response>;

/** Sends everything this person owes this company: traces, then entries in the order they were written, then papers' links and pictures. */
export async function sendOwed(
  store: DeviceStore,
  locks: DeviceLocks,
  desk: Desk,
  ask: Ask,
  now: () => number = Date.now,
): Promise<SendOutcome> {
  const outcome = await locks.tryRun(`send ${desk.company} ${desk.person}`, async () => {
    const chunks = await sendChunks(store, desk, ask, now);
    if (!isRefusal(chunks) && chunks.code !== "all-sent") return chunks;
    // A chunk the server will not have holds up no entry: what was done must arrive, if need be in quarantine.
    const entries = await sendEntries(store, desk, ask, now);
    const links = entries.code === "all-sent" ? await sendLinks(store, desk, ask, now) : entries;
    const pictures = links.code === "all-sent" ? await sendPictures(store, desk, ask, now) : links;
    return pictures.code === "all-sent" ? chunks : pictures;
  });
  return outcome ?? { code: "another-tab-sends" };
}

async function sendChunks(store: DeviceStore, desk: Desk, ask: Ask, now: () => number): Promise<SendOutcome> {
  let refused: SendOutcome | null = null;
  for (const row of await listOwedChunks(store, desk)) {
    const path = `/api/${desk.slug}/jobs/${row.job}/traces/${row.trace}/chunks/${row.index}`;
    const answer = await asked(ask, path, {
      method: "PUT",
      headers: { "content-type": "application/octet-stream" },
      body: row.packed.slice(),
    });
    if (!answer.ok && isRefusal(answer.outcome)) {
      refused = answer.outcome;
      continue;
    }
    if (!answer.ok) return answer.outcome;
    const { digest } = (await answer.response.json()) as { digest: string };
    if (digest !== row.digest) return { code: "server-trouble", status: 200 };
    await store.transaction("rw", ["chunks"], async ({ chunks }) => {
      const kept = await chunks.get([row.trace, row.index]); // gone when its writer has signed out meanwhile
      if (kept) await chunks.put({ ...kept, sentAt: new Date(now()).toISOString() });
    });
  }
  return refused ?? { code: "all-sent" };
}

/** Whether the server understood and said no, as against not being reached or being in trouble. */
function isRefusal(outcome: SendOutcome): boolean {
  return (
    outcome.code === "not-found" || (outcome.code === "server-trouble" && outcome.status >= 400 && outcome.status < 500)
  );
}

async function sendEntries(store: DeviceStore, desk: Desk, ask: Ask, now: () => number): Promise<SendOutcome> {
  let most: number | undefined;
  for (;;) {
    const batch = await nextBatch(store, desk, most);
    if (batch.length === 0) return { code: "all-sent" };
    const answer = await asked(ask, `/api/${desk.slug}/entries`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ entries: batch.map((row) => row.entry) }),
    });
    if (!answer.ok) {
      const tooBig = answer.outcome.code === "server-trouble" && answer.outcome.status === 413;
      if (!tooBig || batch.length === 1) return answer.outcome;
      most = Math.ceil(batch.length / 2);
      continue;
    }
    await noteServerClock(store, answer.response.headers.get("date"), now());
    const taken = (await answer.response.json()) as EntriesAnswer;
    await takeAnswer(store, desk, batch, taken);
    if (answeredFor(taken) === 0) return { code: "server-trouble", status: answer.response.status };
  }
}

async function sendLinks(store: DeviceStore, desk: Desk, ask: Ask, now: () => number): Promise<SendOutcome> {
  for (const link of await listOwedLinks(store, desk)) {
    const answer = await asked(ask, `/api/${desk.slug}/jobs/${link.job}/certificate-links`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(link.content.wire),
    });
    if (!answer.ok) return answer.outcome;
    await noteLinkSent(store, link, new Date(now()).toISOString());
  }
  return { code: "all-sent" };
}

async function sendPictures(store: DeviceStore, desk: Desk, ask: Ask, now: () => number): Promise<SendOutcome> {
  let refused: SendOutcome | null = null;
  for (const row of await listOwedPictures(store, desk)) {
    const answer = await asked(ask, `/api/${desk.slug}/jobs/${row.job}/pictures/${row.id}`, {
      method: "PUT",
      headers: { "content-type": "application/octet-stream" },
      body: pictureBody(row),
    });
    if (!answer.ok && isRefusal(answer.outcome)) {
      refused = answer.outcome;
      continue;
    }
    if (!answer.ok) return answer.outcome;
    const { digest } = (await answer.response.json()) as { digest: string };
    if (digest !== row.digest) return { code: "server-trouble", status: 200 };
    await store.transaction("rw", ["pictures"], async ({ pictures }) => {
      const kept = await pictures.get(row.id); // gone when its writer has signed out meanwhile
      if (kept) await pictures.put({ ...kept, sentAt: new Date(now()).toISOString() });
    });
  }
  return refused ?? { code: "all-sent" };
}

function answeredFor(answer: EntriesAnswer): number {
  return answer.receipts.length + answer.quarantined.length;
}

async function asked(
  ask: Ask,
  path: string,
  request: RequestInit,
): Promise<{ ok: true; response: Response } | { ok: false; outcome: SendOutcome }> {
  let response: Response;
  try {
    response = await ask(path, request);
  } catch {
    return { ok: false, outcome: { code: "no-network" } };
  }
  // 422 is an answer too: some entries went to quarantine, and the receipts of the others hold.
  if (response.ok || response.status === 422) return { ok: true, response };
  if (response.status === 401) return { ok: false, outcome: { code: "signed-out" } };
  if (response.status === 404) return { ok: false, outcome: { code: "not-found" } };
  return { ok: false, outcome: { code: "server-trouble", status: response.status } };
}
