import type { SendOutcome } from "./send";

const FIRST_WAIT_MS = 2_000;
const LONGEST_WAIT_MS = 300_000;

export type SenderState = "idle" | "sending" | SendOutcome["code"];

/** Keeps sending: at once when something was written, when the page comes back, when there is a network, and on a timer. */
export class Sender {
  #state: SenderState = "idle";
  #waitMs = FIRST_WAIT_MS;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #again = false;
  #stopped = false;
  readonly #watchers = new Set<() => void>();
  readonly #round: () => Promise<SendOutcome>;

  constructor(round: () => Promise<SendOutcome>) {
    this.#round = round;
  }

  get state(): SenderState {
    return this.#state;
  }

  watch = (watcher: () => void): (() => void) => {
    this.#watchers.add(watcher);
    return () => this.#watchers.delete(watcher);
  };

  /** Listens to the page. The `online` event alone is not to be trusted: browsers miss it. */
  start(page: Window): () => void {
    this.#stopped = false;
    const nudge = () => void this.nudge();
    const onVisible = () => page.document.visibilityState === "visible" && nudge();
    page.addEventListener("online", nudge);
    page.addEventListener("focus", nudge);
    page.document.addEventListener("visibilitychange", onVisible);
    nudge();
    return () => {
      this.#stopped = true;
      clearTimeout(this.#timer);
      page.removeEventListener("online", nudge);
      page.removeEventListener("focus", nudge);
      page.document.removeEventListener("visibilitychange", onVisible);
    };
  }

  /** Sends now, or once more after the round under way. */
  async nudge(): Promise<void> {
    if (this.#state === "sending") {
      this.#again = true;
      return;
    }
    clearTimeout(this.#timer);
    this.#set("sending");
    let outcome: SendOutcome;
    try {
      outcome = await this.#round();
    } catch (cause) {
      console.error(cause);
      outcome = { code: "server-trouble", status: 0 };
    }
    this.#set(outcome.code);
    if (this.#stopped) return;
    if (this.#again) {
      this.#again = false;
      return this.nudge();
    }
    this.#waitMs = outcome.code === "all-sent" ? FIRST_WAIT_MS : Math.min(this.#waitMs * 2, LONGEST_WAIT_MS);
    const waitMs = outcome.code === "all-sent" ? LONGEST_WAIT_MS : this.#waitMs * (0.75 + Math.random() / 2);
    this.#timer = setTimeout(() => void this.nudge(), waitMs);
  }

  #set(state: SenderState) {
    this.#state = state;
    for (const watcher of this.#watchers) watcher();
  }
}
