import { forceCloseDatabase, IDBFactory } from "fake-indexeddb";

export interface FallibleDisk {
  readonly indexedDB: IDBFactory;
  setFull(full: boolean): void;
  /** Cuts every connection as the death of a program does: transactions under way are undone. */
  cut(): void;
}

/** A disk that can be full, and can lose its program at any moment. */
export function fallibleDisk(): FallibleDisk {
  const factory = new IDBFactory();
  const connections = new Set<IDBDatabase>();
  let full = false;
  function refusing(store: IDBObjectStore): IDBObjectStore {
    for (const method of ["add", "put"] as const) {
      const write = store[method].bind(store);
      store[method] = (row) => {
        if (full) throw new DOMException("The disk is full.", "QuotaExceededError");
        return write(row);
      };
    }
    return store;
  }
  function open(name: string, version?: number): IDBOpenDBRequest {
    const request = factory.open(name, version);
    request.addEventListener("success", () => {
      const database = request.result;
      connections.add(database);
      const begin = database.transaction.bind(database);
      database.transaction = (names, mode, options) => {
        const transaction = begin(names, mode, options);
        const take = transaction.objectStore.bind(transaction);
        transaction.objectStore = (store) => refusing(take(store));
        return transaction;
      };
    });
    return request;
  }
  return {
    indexedDB: { open } as IDBFactory,
    setFull: (now) => {
      full = now;
    },
    cut: () => {
      for (const database of connections) forceCloseDatabase(database as never); // its types ask for the class itself
      connections.clear();
    },
  };
}
