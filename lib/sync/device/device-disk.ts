import type { Row, Rows, StoreName } from "./device-rows";

/** One table of the device, alone or inside a transaction. */
export interface Shelf<R> {
  get(key: IDBValidKey): Promise<R | undefined>;
  /** Rows under one value of an index, or all of them, in the order of their keys. */
  list(index?: string, value?: IDBValidKey): Promise<R[]>;
  add(row: R): Promise<void>;
  put(row: R): Promise<void>;
  delete(key: IDBValidKey): Promise<void>;
}

export type Shelves = { readonly [Name in StoreName]: Shelf<Rows[Name]> };

/** What must have reached the disk itself, not the system's memory, before the screen says that it is saved. */
const MUST_LAST: readonly StoreName[] = ["outbox", "chunks", "pictures", "sequences", "locked"];

const plans: Record<StoreName, { key: string | string[]; counted?: true; indexes?: Record<string, true | "unique"> }> =
  {
    outbox: {
      key: "order",
      counted: true,
      indexes: { id: "unique", "company+person": true, "company+person+job": true },
    },
    log: { key: ["company", "person", "job", "id"], indexes: { "company+person+job": true } },
    sequences: { key: ["installation", "person", "job"] },
    chunks: { key: ["trace", "index"], indexes: { "company+person": true, "company+person+job": true } },
    pictures: { key: "id", indexes: { "company+person": true, "company+person+job": true } },
    pages: { key: ["company", "person", "name"] },
    drafts: { key: ["company", "person", "job", "name"] },
    kept: { key: "name" },
    locked: { key: "number", counted: true, indexes: { "company+person": true } },
  };

/** The first version was 10. A later one may only add: the queue an older program wrote is read by every newer one. */
const VERSION = 30;

export class DeviceDisk {
  #open: Promise<IDBDatabase> | undefined;
  #closed = false;
  #full = false;
  readonly #name: string;
  readonly #factory: IDBFactory;
  readonly #watchers = new Set<(changed: readonly string[]) => void>();
  #channel: BroadcastChannel | undefined;

  constructor(name: string, factory: IDBFactory | undefined) {
    this.#name = name;
    this.#factory = factory ?? globalThis.indexedDB;
  }

  /** Runs work in one transaction: all of what it wrote is kept when this resolves, none when it throws. */
  async transaction<T>(mode: "r" | "rw", names: readonly StoreName[], work: (tx: Shelves) => Promise<T>): Promise<T> {
    const transaction = await this.#begin(mode, names);
    const ended = new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error ?? new DOMException("given up", "AbortError"));
    });
    ended.catch(() => undefined); // also when the work threw first
    const written = new Set<StoreName>();
    const shelves = Object.fromEntries(
      names.map((name) => [name, shelfOf(transaction.objectStore(name), () => written.add(name))]),
    ) as unknown as Shelves;
    let result: T;
    try {
      result = await work(shelves);
    } catch (cause) {
      if (transaction.error === null) abort(transaction);
      throw this.#noteFull(isStorageFull(transaction.error) ? transaction.error : cause);
    }
    await ended.catch((cause: unknown) => {
      throw this.#noteFull(cause);
    });
    if (written.size > 0) {
      this.#full = false;
      this.#say([...written]);
    }
    return result;
  }

  /** Whether the last attempt to write found no room on this device. */
  get full(): boolean {
    return this.#full;
  }

  /** Calls back after each committed change, also of other tabs. */
  watch(watcher: (changed: readonly string[]) => void): () => void {
    this.#watchers.add(watcher);
    if (!this.#channel && typeof BroadcastChannel !== "undefined") {
      this.#channel = new BroadcastChannel(`${this.#name} changed`);
      this.#channel.onmessage = ({ data }) => this.#tell(data as readonly string[]);
    }
    return () => this.#watchers.delete(watcher);
  }

  /** For good: what still runs fails from here on, as it would had the program been killed. */
  close(): void {
    this.#closed = true;
    this.#channel?.close();
    this.#channel = undefined;
    void this.#open?.then((database) => database.close());
    this.#open = undefined;
  }

  #noteFull(cause: unknown): unknown {
    if (isStorageFull(cause)) {
      this.#full = true;
      this.#tell([]);
    }
    return cause;
  }

  #say(changed: readonly string[]) {
    this.#channel?.postMessage(changed);
    this.#tell(changed);
  }

  #tell(changed: readonly string[]) {
    for (const watcher of this.#watchers) watcher(changed);
  }

  async #begin(mode: "r" | "rw", names: readonly StoreName[]): Promise<IDBTransaction> {
    const durability = names.some((name) => MUST_LAST.includes(name)) ? "strict" : "relaxed";
    const begin = (database: IDBDatabase) =>
      database.transaction([...names], mode === "rw" ? "readwrite" : "readonly", { durability });
    try {
      return begin(await this.#database());
    } catch (cause) {
      // A browser closes the connection of a page that slept for long; the next one works.
      if (!(cause instanceof DOMException) || cause.name !== "InvalidStateError") throw cause;
      this.#open = undefined;
      return begin(await this.#database());
    }
  }

  #database(): Promise<IDBDatabase> {
    if (this.#closed) return Promise.reject(new DOMException("the store was closed", "AbortError"));
    this.#open ??= new Promise<IDBDatabase>((resolve, reject) => {
      const request = this.#factory.open(this.#name, VERSION);
      request.onupgradeneeded = () => upgrade(request.result, request.transaction as IDBTransaction);
      request.onerror = () => reject(request.error);
      request.onsuccess = () => {
        const database = request.result;
        const forget = () => {
          database.close();
          this.#open = undefined;
        };
        database.onversionchange = forget; // a newer program waits in another tab
        database.onclose = forget;
        resolve(database);
      };
    }).catch((cause: unknown) => {
      this.#open = undefined;
      throw cause;
    });
    return this.#open;
  }
}

/** Adds what is missing and takes nothing away, from whichever version. */
function upgrade(database: IDBDatabase, transaction: IDBTransaction) {
  for (const [name, { key, counted, indexes = {} }] of Object.entries(plans)) {
    const store = database.objectStoreNames.contains(name)
      ? transaction.objectStore(name)
      : database.createObjectStore(name, { keyPath: key, autoIncrement: counted ?? false });
    for (const [index, kind] of Object.entries(indexes)) {
      if (!store.indexNames.contains(indexName(index)))
        store.createIndex(indexName(index), index.includes("+") ? index.split("+") : index, {
          unique: kind === "unique",
        });
    }
  }
}

const indexName = (index: string) => (index.includes("+") ? `[${index}]` : index);

function shelfOf<R extends Row>(store: IDBObjectStore, wrote: () => void): Shelf<R> {
  const write = async (request: IDBRequest) => {
    wrote();
    await answerOf(request);
  };
  return {
    get: (key) => answerOf<R | undefined>(store.get(key)),
    list: (index, value) => answerOf<R[]>(index ? store.index(indexName(index)).getAll(value) : store.getAll(value)),
    add: (row) => write(store.add(row)),
    put: (row) => write(store.put(row)),
    delete: (key) => write(store.delete(key)),
  };
}

function answerOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function abort(transaction: IDBTransaction) {
  try {
    transaction.abort();
  } catch {
    // it had ended by itself
  }
}

/** Why the store did not open: a newer program has been here, or this browser keeps nothing. */
export function diskTrouble(cause: unknown): "older-program" | "no-disk" {
  return cause instanceof DOMException && cause.name === "VersionError" ? "older-program" : "no-disk";
}

/** Whether a write failed because this device has no room left. */
export function isStorageFull(cause: unknown): boolean {
  return cause instanceof DOMException && cause.name === "QuotaExceededError";
}
