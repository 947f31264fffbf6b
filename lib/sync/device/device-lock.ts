/** Runs work while no other tab of this device runs work under the same name. */
export interface DeviceLocks {
  run<T>(name: string, work: () => Promise<T>): Promise<T>;
  /** The same, but gives up at once (undefined) while another tab holds it. */
  tryRun<T>(name: string, work: () => Promise<T>): Promise<T | undefined>;
}

/** Locks shared by every tab of the browser. */
export function browserLocks(manager: LockManager): DeviceLocks {
  return {
    run: (name, work) => manager.request(name, work) as Promise<Awaited<ReturnType<typeof work>>>,
    tryRun: (name, work) =>
      manager.request(name, { ifAvailable: true }, async (lock) => (lock ? work() : undefined)) as Promise<
        Awaited<ReturnType<typeof work>> | undefined
      >,
  };
}

/** Locks within one page, where the browser has none to share: IndexedDB's own transactions still part two tabs. */
export function pageLocks(): DeviceLocks {
  const queues = new Map<string, { tail: Promise<unknown>; length: number }>();
  async function run<T>(name: string, work: () => Promise<T>): Promise<T> {
    const queue = queues.get(name) ?? { tail: Promise.resolve(), length: 0 };
    queues.set(name, queue);
    queue.length += 1;
    const turn = queue.tail.then(work).finally(() => {
      queue.length -= 1;
    });
    queue.tail = turn.catch(() => undefined);
    return turn;
  }
  const isTaken = (name: string) => (queues.get(name)?.length ?? 0) > 0;
  return { run, tryRun: async (name, work) => (isTaken(name) ? undefined : run(name, work)) };
}
