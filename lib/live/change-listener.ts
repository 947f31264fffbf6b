import "server-only";
import { Client } from "pg";
import { listenUrl } from "@/lib/env";
import type { CompanyId } from "@/lib/ids";
import { type Change, readNotice } from "./change";

const ALIVE_EVERY_MS = 20_000;
const ALIVE_WITHIN_MS = 5_000;
const FIRST_WAIT_MS = 500;
const LONGEST_WAIT_MS = 30_000;

/** Told each change of the company, or that some may have been missed: then everything shown is to be asked for again. */
export type Subscriber = (told: Change | "missed") => void;

/**
 * The process' one connection that listens to the database, open while somebody follows. When it breaks, it is made again and
 * everybody is told that changes may have been missed: notices are not kept for who was away.
 */
export class ChangeListener {
  readonly #url: () => string;
  readonly #following = new Map<CompanyId, Set<Subscriber>>();
  #client: Client | null = null;
  #alive: NodeJS.Timeout | undefined;
  #again: NodeJS.Timeout | undefined;
  #waitMs = FIRST_WAIT_MS;
  #missed = false;

  constructor(url: () => string) {
    this.#url = url;
  }

  /** Follows one company's changes until the answer is called. */
  follow(company: CompanyId, subscriber: Subscriber): () => void {
    const subscribers = this.#following.get(company) ?? new Set();
    this.#following.set(company, subscribers.add(subscriber));
    if (this.#client === null && this.#again === undefined) void this.#connect();
    return () => {
      subscribers.delete(subscriber);
      if (subscribers.size === 0 && this.#following.get(company) === subscribers) this.#following.delete(company);
      if (this.#following.size === 0) this.#disconnect();
    };
  }

  get isConnected(): boolean {
    return this.#alive !== undefined;
  }

  async #connect(): Promise<void> {
    this.#again = undefined;
    const client = new Client({ connectionString: this.#url(), keepAlive: true, application_name: "dryhold changes" });
    this.#client = client;
    client.on("error", () => this.#lost(client));
    client.on("end", () => this.#lost(client));
    client.on("notification", ({ payload }) => {
      const notice = readNotice(payload);
      if (notice) this.#tell(notice.company, notice.change);
    });
    try {
      await client.connect();
      await client.query("listen dryhold_change");
    } catch {
      return this.#lost(client);
    }
    if (this.#client !== client) return;
    this.#waitMs = FIRST_WAIT_MS;
    this.#alive = setInterval(() => this.#ask(client), ALIVE_EVERY_MS);
    if (this.#missed) for (const company of this.#following.keys()) this.#tell(company, "missed");
    this.#missed = false;
  }

  /** A connection whose other end is gone without a word says nothing either; only asking shows it. */
  #ask(client: Client): void {
    const late = setTimeout(() => this.#lost(client), ALIVE_WITHIN_MS);
    client.query("select 1").then(
      () => clearTimeout(late),
      () => clearTimeout(late),
    );
  }

  #lost(client: Client): void {
    if (this.#client !== client) return;
    this.#missed = true;
    this.#close();
    if (this.#following.size === 0) return;
    this.#again = setTimeout(() => void this.#connect(), this.#waitMs);
    this.#waitMs = Math.min(this.#waitMs * 2, LONGEST_WAIT_MS);
  }

  #disconnect(): void {
    clearTimeout(this.#again);
    this.#again = undefined;
    this.#missed = false;
    this.#close();
  }

  #close(): void {
    const client = this.#client;
    this.#client = null;
    clearInterval(this.#alive);
    this.#alive = undefined;
    client?.end().catch(() => {});
  }

  #tell(company: string, told: Change | "missed"): void {
    for (const subscriber of this.#following.get(company as CompanyId) ?? []) subscriber(told);
  }
}

const held = globalThis as { dryholdChanges?: ChangeListener };

/** The one listener of this process, however many bundles the framework makes of the code. */
export function changeListener(): ChangeListener {
  held.dryholdChanges ??= new ChangeListener(listenUrl);
  return held.dryholdChanges;
}
