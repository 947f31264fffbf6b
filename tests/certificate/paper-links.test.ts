import { IDBFactory } from "fake-indexeddb";
import { beforeEach, expect, test } from "vitest";
import { CompanyId, JobId, PersonId } from "@/lib/ids";
import {
  DeviceStore,
  findPaperLink,
  keepPaperLink,
  listOwedLinks,
  type PaperLink,
  pageLocks,
  sendOwed,
} from "@/lib/sync/device";

const desk = {
  company: CompanyId.parse("00000000-0000-4000-8000-000000000001"),
  slug: "fernhollow",
  person: PersonId.parse("00000000-0000-4000-8000-00000000000a"),
};
const job = JobId.parse("00000000-0000-4000-8000-000000000002");
const digest = "ab".repeat(32);

const link = (token: string): PaperLink => ({
  token,
  wire: {
    id: "00000000-0000-4000-8000-0000000000aa",
    tokenHash: "cd".repeat(32),
    paper: { digest, strength: "strong", verdicts: { pressureTest: "tight", leakCheck: "complete", hold: "wet" } },
  },
  sentAt: null,
});

let store: DeviceStore;
beforeEach(() => {
  store = new DeviceStore("papers", { indexedDB: new IDBFactory() });
});

/** A server that answers each request with this status, and notes what it was asked. */
function server(status: number) {
  const asked: { path: string; body: string }[] = [];
  const ask = async (path: string, request: RequestInit) => {
    asked.push({ path, body: String(request.body) });
    return new Response("{}", { status });
  };
  return { asked, ask };
}

test("the same paper keeps its first address", async () => {
  await keepPaperLink(store, desk, job, link("first"));
  expect((await keepPaperLink(store, desk, job, link("second"))).token).toBe("first");
  expect((await findPaperLink(store, desk, job, digest))?.token).toBe("first");
});

test("an address is owed until the server has it, is sent once, and its secret part never leaves the device", async () => {
  await keepPaperLink(store, desk, job, link("the-secret-part"));
  const gone = async (): Promise<Response> => {
    throw new TypeError("no network");
  };
  expect((await sendOwed(store, pageLocks(), desk, gone)).code).toBe("no-network");
  expect(await listOwedLinks(store, desk)).toHaveLength(1);

  const { asked, ask } = server(200);
  expect((await sendOwed(store, pageLocks(), desk, ask)).code).toBe("all-sent");
  expect((await sendOwed(store, pageLocks(), desk, ask)).code).toBe("all-sent");
  expect(asked.map(({ path }) => path)).toEqual([`/api/fernhollow/jobs/${job}/certificate-links`]);
  expect(asked[0]!.body).not.toContain("the-secret-part");
  expect(await listOwedLinks(store, desk)).toEqual([]);
});

test("an address of somebody else at the same tablet is not sent", async () => {
  await keepPaperLink(store, desk, job, link("hers"));
  const other = { ...desk, person: PersonId.parse("00000000-0000-4000-8000-00000000000b") };
  const { asked, ask } = server(200);
  await sendOwed(store, pageLocks(), other, ask);
  expect(asked).toEqual([]);
});
