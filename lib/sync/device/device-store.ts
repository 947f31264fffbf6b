import { v4 } from "uuid";
import type { InstallationId } from "@/lib/ids";
import { DeviceDisk, type Shelf } from "./device-disk";
import type { Rows, StoreName } from "./device-rows";

/** Everything the tablet keeps. Rows are read by company and person only, so that two people can share a tablet. */
export class DeviceStore extends DeviceDisk {
  readonly outbox = this.#shelf("outbox");
  readonly log = this.#shelf("log");
  readonly sequences = this.#shelf("sequences");
  readonly chunks = this.#shelf("chunks");
  readonly pictures = this.#shelf("pictures");
  readonly pages = this.#shelf("pages");
  readonly drafts = this.#shelf("drafts");
  readonly kept = this.#shelf("kept");
  readonly locked = this.#shelf("locked");

  constructor(name = "dryhold", options: { readonly indexedDB?: IDBFactory } = {}) {
    super(name, options.indexedDB);
  }

  /** One request as a transaction of its own. */
  #shelf<Name extends StoreName>(name: Name): Shelf<Rows[Name]> {
    const alone = <T>(mode: "r" | "rw", work: (shelf: Shelf<Rows[Name]>) => Promise<T>) =>
      this.transaction(mode, [name], (tx) => work(tx[name] as Shelf<Rows[Name]>));
    return {
      get: (key) => alone("r", (shelf) => shelf.get(key)),
      list: (index, value) => alone("r", (shelf) => shelf.list(index, value)),
      add: (row) => alone("rw", (shelf) => shelf.add(row)),
      put: (row) => alone("rw", (shelf) => shelf.put(row)),
      delete: (key) => alone("rw", (shelf) => shelf.delete(key)),
    };
  }
}

/** The id of this installed copy, made once and kept. */
export async function installationId(store: DeviceStore): Promise<InstallationId> {
  return store.transaction("rw", ["kept"], async ({ kept }) => {
    const known = await kept.get("installation");
    if (known) return known.value as InstallationId;
    const made = v4() as InstallationId;
    await kept.add({ name: "installation", value: made });
    return made;
  });
}

/** Server clock less device clock in milliseconds, as last seen; null while it never was. */
export async function clockOffsetMs(kept: DeviceStore["kept"]): Promise<number | null> {
  return ((await kept.get("clock-offset"))?.value as number | undefined) ?? null;
}

/** Notes the server's clock from an answer. The header counts whole seconds: the middle of one is taken. */
export async function noteServerClock(store: DeviceStore, dateHeader: string | null, nowMs: number): Promise<void> {
  const serverMs = Date.parse(dateHeader ?? "");
  if (Number.isNaN(serverMs)) return;
  await store.kept.put({ name: "clock-offset", value: Math.round(serverMs + 500 - nowMs) });
}
