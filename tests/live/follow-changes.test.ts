import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { followChanges, type Told } from "@/lib/live/follow-changes";

/** Stands in for the browser's own: opened by the program, spoken for by the test. */
class FakeSource extends EventTarget {
  static readonly CLOSED = 2;
  static open: FakeSource[] = [];
  readyState = 1;
  constructor(readonly address: string) {
    super();
    FakeSource.open.push(this);
  }
  close() {
    this.readyState = FakeSource.CLOSED;
    FakeSource.open = FakeSource.open.filter((each) => each !== this);
  }
  say(type: "change" | "missed", data: unknown = {}) {
    this.dispatchEvent(new MessageEvent(type, { data: JSON.stringify(data) }));
  }
  /** Refused for good, as an EventSource is by any status but 200. */
  refuse() {
    this.close();
    this.dispatchEvent(new Event("error"));
  }
}

/** One holder at a time, the next when it lets go. */
function fakeLocks() {
  let tail: Promise<unknown> = Promise.resolve();
  return {
    request(_name: string, { signal }: { signal: AbortSignal }, work: () => Promise<unknown>) {
      const turn = tail.then(() => (signal.aborted ? undefined : work()));
      tail = turn.catch(() => {});
      return turn;
    },
  };
}

let nowMs = 0;
beforeEach(() => {
  FakeSource.open = [];
  nowMs = 0;
  vi.stubGlobal("EventSource", FakeSource);
  vi.stubGlobal("navigator", { locks: fakeLocks() });
  vi.spyOn(performance, "now").mockImplementation(() => nowMs);
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
  vi.useRealTimers();
});

function tab() {
  const told: Told[] = [];
  return { told, leave: followChanges("north", (each) => told.push(each)) };
}
const change = { kind: "job", id: "one" } as const;

test("two tabs share one connection, and both are told", async () => {
  const [first, second] = [tab(), tab()];
  await vi.waitFor(() => expect(FakeSource.open).toHaveLength(1));
  expect(FakeSource.open[0]!.address).toBe("/api/north/changes");
  FakeSource.open[0]!.say("change", change);
  FakeSource.open[0]!.say("missed");
  await vi.waitFor(() =>
    expect([first.told, second.told]).toEqual([
      [change, "missed"],
      [change, "missed"],
    ]),
  );
  first.leave();
  second.leave();
});

test("when the tab with the connection goes, another takes over and asks for everything", async () => {
  const [first, second] = [tab(), tab()];
  await vi.waitFor(() => expect(FakeSource.open).toHaveLength(1));
  nowMs = 60_000;
  first.leave();
  await vi.waitFor(() => expect(second.told).toEqual(["missed"]));
  await vi.waitFor(() => expect(FakeSource.open).toHaveLength(1));
  second.leave();
  await vi.waitFor(() => expect(FakeSource.open).toHaveLength(0));
});

test("a tab that left while it waited opens nothing", async () => {
  const [first, second] = [tab(), tab()];
  await vi.waitFor(() => expect(FakeSource.open).toHaveLength(1));
  second.leave();
  first.leave();
  await vi.waitFor(() => expect(FakeSource.open).toHaveLength(0));
});

test("without locks to agree by, each tab has its own connection and no change is told twice", async () => {
  vi.stubGlobal("navigator", {});
  const [first, second] = [tab(), tab()];
  expect(FakeSource.open).toHaveLength(2);
  FakeSource.open[0]!.say("change", change);
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(first.told).toEqual([change]);
  expect(second.told).toEqual([]);
  first.leave();
  second.leave();
});

test("a connection that was refused is asked for again later, and what came between counts as missed", async () => {
  vi.stubGlobal("navigator", {});
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  const only = tab();
  FakeSource.open[0]!.refuse();
  expect(FakeSource.open).toHaveLength(0);
  vi.advanceTimersByTime(20_000);
  expect(FakeSource.open).toHaveLength(1);
  expect(only.told).toEqual(["missed"]);
  FakeSource.open[0]!.refuse();
  only.leave();
  vi.advanceTimersByTime(60_000);
  expect(FakeSource.open).toHaveLength(0);
});
