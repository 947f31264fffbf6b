import { IDBFactory } from "fake-indexeddb";
import { v4 } from "uuid";
import { beforeEach, expect, test } from "vitest";
import type { EntryContent } from "@/lib/hvac/procedure";
import type { CompanyId, JobId, PersonId } from "@/lib/ids";
import {
  type Ask,
  countOutbox,
  type Desk,
  DeviceStore,
  dropPicture,
  findPicture,
  keepPicture,
  pageLocks,
  sendOwed,
  writeEntry,
} from "@/lib/sync/device";
import { saltedDigest, unpackPicture } from "@/lib/sync/picture";
import { jpeg } from "./sample-pictures";

const desk: Desk = { company: v4() as CompanyId, slug: "north", person: v4() as PersonId };
const job = v4() as JobId;
let store: DeviceStore;
let asked: string[];
let pictures: Map<string, string>;
let fates: ("lost-request" | "lost-answer" | 400)[];

const ask: Ask = async (path, request) => {
  asked.push(`${request.method} ${path}`);
  const fate = path.includes("/pictures/") ? fates.shift() : undefined;
  if (fate === "lost-request") throw new TypeError("network");
  if (typeof fate === "number") return new Response(null, { status: fate });
  if (path.includes("/pictures/")) {
    const picture = unpackPicture(request.body as Uint8Array);
    if (!picture.ok) return new Response(null, { status: 400 });
    const digest = saltedDigest(picture.value);
    pictures.set(path.split("/").at(-1)!, digest);
    if (fate === "lost-answer") throw new TypeError("network");
    return Response.json({ digest });
  }
  const { entries } = JSON.parse(String(request.body)) as { entries: { id: string }[] };
  const stamp = { receivedSeq: 1, receivedAt: "2026-01-05T10:00:00Z", roles: ["technician"] };
  return Response.json({ receipts: entries.map(({ id }) => ({ id, stamp })), quarantined: [] });
};
const note = (photos: { attachment: never; saltedDigest: string }[]): EntryContent => ({
  kind: "note",
  body: { text: "flare", photos },
});
async function noteWithPhoto() {
  const photo = await keepPicture(store, desk, job, jpeg());
  await writeEntry(store, pageLocks(), desk, job, note([photo as never]));
  return photo;
}
const send = () => sendOwed(store, pageLocks(), desk, ask);

beforeEach(() => {
  store = new DeviceStore("dryhold", { indexedDB: new IDBFactory() });
  [asked, pictures, fates] = [[], new Map(), []];
});

test("a photo goes after the entry that names it, once, and stays to be looked at", async () => {
  const photo = await noteWithPhoto();
  expect(await countOutbox(store, desk)).toEqual({ waiting: 2, problems: 0 });
  expect(await send()).toEqual({ code: "all-sent" });
  expect(asked.map((each) => each.split(" ")[0])).toEqual(["POST", "PUT"]);
  expect(pictures.get(photo.attachment)).toBe(photo.saltedDigest);
  expect(await countOutbox(store, desk)).toEqual({ waiting: 0, problems: 0 });
  await send();
  expect(asked).toHaveLength(2);
  expect(await findPicture(store, desk, photo.attachment)).not.toBeNull();
});

test("a lost request or answer is made up for; one the server will not have holds up no other", async () => {
  const [one, other] = [await noteWithPhoto(), await noteWithPhoto()];
  fates = ["lost-answer"];
  expect(await send()).toEqual({ code: "no-network" });
  fates = [400];
  expect((await send()).code).toBe("server-trouble");
  expect([...pictures.keys()].sort()).toEqual([one.attachment, other.attachment].sort());
  expect(await countOutbox(store, desk)).toEqual({ waiting: 1, problems: 0 });
  expect(await send()).toEqual({ code: "all-sent" });
});

test("a photo of a draft is not sent and can be thrown away; one an entry names cannot", async () => {
  const drafted = await keepPicture(store, desk, job, jpeg());
  const named = await noteWithPhoto();
  await send();
  expect(pictures.has(drafted.attachment)).toBe(false);
  await dropPicture(store, desk, drafted.attachment);
  await dropPicture(store, desk, named.attachment);
  expect(await findPicture(store, desk, drafted.attachment)).toBeNull();
  expect(await findPicture(store, desk, named.attachment)).not.toBeNull();
});

test("another person at the same tablet finds none of it", async () => {
  const photo = await noteWithPhoto();
  expect(await findPicture(store, { ...desk, person: v4() as PersonId }, photo.attachment)).toBeNull();
});
