import type { CompanyId, PersonId } from "@/lib/ids";
import type { ChunkRow, DraftRow, OutboxRow, PictureRow } from "./device-rows";
import type { DeviceStore } from "./device-store";

/** One person in one company: whose rows are meant. */
export interface Owner {
  readonly company: CompanyId;
  readonly person: PersonId;
}

type Owed =
  | { readonly of: "outbox"; readonly row: OutboxRow }
  | { readonly of: "drafts"; readonly row: DraftRow }
  | { readonly of: "chunks"; readonly row: Omit<ChunkRow, "packed"> & { readonly packed: number[] } }
  | { readonly of: "pictures"; readonly row: Omit<PictureRow, "salt" | "bytes"> & { salt: number[]; bytes: number[] } };

/** A key this device can use and not give away. @source NIST SP 800-38D (AES-GCM), through the browser's WebCrypto */
export function readKey(base64: string): Promise<CryptoKey> {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  return crypto.subtle.importKey("raw", bytes, "AES-GCM", false, ["encrypt", "decrypt"]);
}

/**
 * Seals what this person has not sent, and takes everything else of theirs off the device, at once.
 *
 * Returns how many things were sealed. What is written while the seals are made is seen and sealed too.
 */
export async function lockAway(store: DeviceStore, owner: Owner, key: CryptoKey): Promise<number> {
  for (;;) {
    const owed = await listOwed(store, owner);
    const sealed = await Promise.all(owed.map((each) => seal(key, owner, each)));
    const done = await store.transaction(
      "rw",
      ["outbox", "drafts", "chunks", "pictures", "log", "pages", "locked"],
      async (tx) => {
        const now = await listOwed(tx, owner);
        if (JSON.stringify(now) !== JSON.stringify(owed)) return false; // something was written meanwhile: seal again
        for (const row of sealed) await tx.locked.add({ ...owner, ...row });
        for (const row of await tx.outbox.list("company+person", of(owner)))
          await tx.outbox.delete(row.order as number);
        for (const row of await tx.chunks.list("company+person", of(owner)))
          await tx.chunks.delete([row.trace, row.index]);
        for (const { id } of await tx.pictures.list("company+person", of(owner))) await tx.pictures.delete(id);
        for (const { job, name } of (await tx.drafts.list()).filter(isOf(owner)))
          await tx.drafts.delete([...of(owner), job, name]);
        for (const { job, id } of (await tx.log.list()).filter(isOf(owner)))
          await tx.log.delete([...of(owner), job, id]);
        for (const { name } of (await tx.pages.list()).filter(isOf(owner))) await tx.pages.delete([...of(owner), name]);
        return true;
      },
    );
    if (done) return owed.length;
  }
}

/** Opens what this person had locked away; what the key does not open stays locked. Returns how many did not open. */
export async function unlock(store: DeviceStore, owner: Owner, key: CryptoKey): Promise<number> {
  const rows = await store.locked.list("company+person", of(owner));
  let closed = 0;
  for (const row of rows) {
    const opened = await open(key, row.iv, row.sealed);
    if (!opened) {
      closed += 1;
      continue;
    }
    await store.transaction("rw", ["outbox", "drafts", "chunks", "pictures", "locked"], async (tx) => {
      if (opened.of === "outbox") await tx.outbox.put(opened.row);
      else if (opened.of === "drafts") await tx.drafts.put(opened.row);
      else if (opened.of === "chunks")
        await tx.chunks.put({ ...opened.row, packed: Uint8Array.from(opened.row.packed) });
      else
        await tx.pictures.put({
          ...opened.row,
          salt: Uint8Array.from(opened.row.salt),
          bytes: Uint8Array.from(opened.row.bytes),
        });
      await tx.locked.delete(row.number as number);
    });
  }
  return closed;
}

type Reading = Pick<DeviceStore, "outbox" | "drafts" | "chunks" | "pictures">;

async function listOwed(shelves: Reading, owner: Owner): Promise<Owed[]> {
  const outbox = await shelves.outbox.list("company+person", of(owner));
  const drafts = (await shelves.drafts.list()).filter(isOf(owner));
  const chunks = await shelves.chunks.list("company+person", of(owner));
  const pictures = await shelves.pictures.list("company+person", of(owner));
  return [
    ...outbox.map((row) => ({ of: "outbox" as const, row })),
    ...drafts.map((row) => ({ of: "drafts" as const, row })),
    ...chunks
      .filter(({ sentAt }) => sentAt === null)
      .map((row) => ({ of: "chunks" as const, row: { ...row, packed: [...row.packed] } })),
    ...pictures
      .filter(({ sentAt }) => sentAt === null)
      .map((row) => ({ of: "pictures" as const, row: { ...row, salt: [...row.salt], bytes: [...row.bytes] } })),
  ];
}

async function seal(key: CryptoKey, owner: Owner, owed: Owed) {
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const plain = new TextEncoder().encode(JSON.stringify({ ...owner, ...owed }));
  return { iv, sealed: await crypto.subtle.encrypt({ name: "AES-GCM", iv }, key, plain) };
}

async function open(key: CryptoKey, iv: Uint8Array<ArrayBuffer>, sealed: ArrayBuffer): Promise<Owed | null> {
  try {
    return JSON.parse(new TextDecoder().decode(await crypto.subtle.decrypt({ name: "AES-GCM", iv }, key, sealed)));
  } catch {
    return null; // another key, or damaged: kept as it is
  }
}

const of = (owner: Owner) => [owner.company, owner.person];
const isOf = (owner: Owner) => (row: Owner) => row.company === owner.company && row.person === owner.person;
