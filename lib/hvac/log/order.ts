import type { EntryId } from "@/lib/ids";
import type { LogEntry } from "./entry";
import { chainOf, inOrder } from "./merge";

/** A log in causal order, with the question of what came before what answered for every pair. */
export interface OrderedLog {
  /** Every entry after all it had seen; entries that had not seen each other stand by id. */
  readonly entries: readonly LogEntry[];
  /** Whether the author of the entry at `later` had seen, directly or through others, the one at `earlier`. */
  readonly before: (earlier: number, later: number) => boolean;
  /** How many entries the one at `index` had seen, directly or through others. */
  readonly seenCount: (index: number) => number;
  readonly indexOf: (id: EntryId) => number | undefined;
  /** Entries named as seen, or skipped over by a sequence, that are not here. */
  readonly missing: readonly EntryId[];
  readonly gaps: readonly SequenceGap[];
  /** Entries of one chain that share a sequence number: two writers used one installation without its lock. */
  readonly forks: readonly EntryId[];
  /** Entries that claim to have seen each other; no order fits them. */
  readonly circular: readonly LogEntry[];
}
export interface SequenceGap {
  readonly chain: string;
  readonly afterSeq: number;
  readonly beforeSeq: number;
}

const BITS = 32;

/** Orders one job's entries by what their authors had seen. Expects each id once. */
export function orderLog(all: readonly LogEntry[]): OrderedLog {
  const sorted = [...all].sort((a, b) => inOrder(a.id, b.id));
  const position = new Map(sorted.map((entry, index) => [entry.id, index]));
  const missing = new Set<EntryId>();
  const parents: number[][] = sorted.map((entry) => {
    const seen: number[] = [];
    for (const id of entry.heads) {
      const index = position.get(id);
      if (index === undefined) missing.add(id);
      else seen.push(index);
    }
    return seen;
  });
  const { gaps, forks } = linkChains(sorted, parents);
  const { order, circular } = sortByCause(parents);

  const words = Math.ceil(order.length / BITS);
  const place = new Map(order.map((from, to) => [from, to]));
  const rows = new Uint32Array(order.length * words);
  for (const [index, from] of order.entries()) {
    for (const parent of parents[from] ?? []) {
      const at = place.get(parent) ?? 0;
      for (let word = 0; word < words; word += 1) rows[index * words + word]! |= rows[at * words + word]!;
      rows[index * words + Math.floor(at / BITS)]! |= 1 << (at % BITS);
    }
  }
  const entries = order.map((from) => sorted[from]!);
  const byId = new Map(entries.map((entry, index) => [entry.id, index]));
  return {
    entries,
    before: (earlier, later) => (rows[later * words + Math.floor(earlier / BITS)]! & (1 << (earlier % BITS))) !== 0,
    seenCount: (index) => countBits(rows.subarray(index * words, (index + 1) * words)),
    indexOf: (id) => byId.get(id),
    missing: [...missing].sort(),
    gaps,
    forks,
    circular: circular.map((from) => sorted[from]!),
  };
}

/** Adds each writer's own sequence to what its entries had seen; a writer has always seen its own earlier entries. */
function linkChains(sorted: readonly LogEntry[], parents: number[][]) {
  const chains = new Map<string, number[]>();
  for (const [index, entry] of sorted.entries()) {
    const chain = chainOf(entry);
    const known = chains.get(chain);
    if (known) known.push(index);
    else chains.set(chain, [index]);
  }
  const gaps: SequenceGap[] = [];
  const forks: EntryId[] = [];
  for (const [chain, members] of chains) {
    members.sort((a, b) => sorted[a]!.seq - sorted[b]!.seq);
    let previous: number[] = [];
    let previousSeq = 0;
    for (let start = 0; start < members.length; ) {
      const seq = sorted[members[start]!]!.seq;
      const same = members.slice(start).filter((member) => sorted[member]!.seq === seq);
      if (same.length > 1) forks.push(...same.map((member) => sorted[member]!.id));
      if (seq > previousSeq + 1) gaps.push({ chain, afterSeq: previousSeq, beforeSeq: seq });
      for (const member of same) parents[member]!.push(...previous);
      previous = same;
      previousSeq = seq;
      start += same.length;
    }
  }
  gaps.sort((a, b) => inOrder(a.chain, b.chain) || a.afterSeq - b.afterSeq);
  return { gaps, forks: forks.sort() };
}

/** Positions so that each comes after its parents, lowest position first among the ready; the rest are circular. */
function sortByCause(parents: readonly (readonly number[])[]) {
  const waitingFor = parents.map((list) => new Set(list).size);
  const children: number[][] = parents.map(() => []);
  for (const [child, list] of parents.entries()) for (const parent of new Set(list)) children[parent]!.push(child);
  const ready = waitingFor.flatMap((count, index) => (count === 0 ? [index] : []));
  const order: number[] = [];
  while (ready.length > 0) {
    let lowest = 0;
    for (let index = 1; index < ready.length; index += 1) if (ready[index]! < ready[lowest]!) lowest = index;
    const next = ready.splice(lowest, 1)[0]!;
    order.push(next);
    for (const child of children[next]!) {
      waitingFor[child]! -= 1;
      if (waitingFor[child] === 0) ready.push(child);
    }
  }
  return { order, circular: waitingFor.flatMap((count, index) => (count > 0 ? [index] : [])) };
}

function countBits(words: Uint32Array): number {
  let count = 0;
  for (const word of words) for (let rest = word; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}
