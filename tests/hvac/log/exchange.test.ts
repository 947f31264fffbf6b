import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { closingDigest, digestOf } from "@/lib/sync/digest";
import { headsOf, listMissing, listOwed, mergeEntries, nextSeq, unstamped, wireOf } from "@/lib/sync/protocol";
import { supervisorTablet, Tablet } from "../procedure/job-log";

function twoTablets() {
  const a = new Tablet(1);
  const b = new Tablet(2);
  a.open("leak_repair");
  b.see(a);
  a.record("make_safe");
  b.write({ kind: "note", body: { text: "roof key at the desk", photos: [] } }, { offline: true });
  return { a, b };
}

describe("union of entry sets", () => {
  test("[L4] [L2] is the same in any order and any number of copies", () => {
    const { a, b } = twoTablets();
    const all = mergeEntries(a.view, b.view);
    expect(mergeEntries(b.view, a.view, b.view)).toEqual(all);
    expect(mergeEntries(all.entries, a.view).entries).toEqual(all.entries);
    fc.assert(
      fc.property(fc.shuffledSubarray(all.entries, { minLength: all.entries.length }), (shuffled) => {
        expect(mergeEntries(shuffled).entries).toEqual(all.entries);
      }),
    );
  });

  test("[L14] the server's copy stands before the device's own", () => {
    const { b } = twoTablets();
    const own = b.view.at(-1)!;
    const stamp = { receivedSeq: 5, receivedAt: "2026-11-25T09:00:00.000Z", roles: ["technician" as const] };
    for (const sets of [
      [[own], [{ ...own, stamp }]],
      [[{ ...own, stamp }], [own]],
    ] as const) {
      expect(mergeEntries(...sets)).toEqual({ entries: [{ ...own, stamp }], conflicts: [] });
    }
  });
});

describe("what a device writes and owes", () => {
  test("heads are what nobody has seen yet, and the next entry names them all", () => {
    const { a, b } = twoTablets();
    const [mine, other] = [a.view.at(-1)!.id, b.view.at(-1)!.id];
    a.see(b);
    expect(headsOf(a.view)).toEqual([mine, other].sort());
    const next = a.record("recover");
    expect(next.heads).toEqual([mine, other].sort());
    expect(headsOf(a.view)).toEqual([next.id]);
  });

  test("sequence numbers count within installation, person and job", () => {
    const { a } = twoTablets();
    const boss = supervisorTablet(1);
    boss.see(a);
    const first = boss.write({ kind: "note", body: { text: "seen", photos: [] } });
    expect(first.seq).toBe(1); // same installation, other person
    expect(nextSeq(a.view, a.view[0]!)).toBe(3);
  });

  test("it owes what has no stamp, in order, and only its own", () => {
    const { a, b } = twoTablets();
    b.record("recover");
    const second = b.write({ kind: "note", body: { text: "two", photos: [] } }, { offline: true });
    b.see(a);
    const owed = listOwed(b.view, second.installation);
    expect(owed.map(({ seq }) => seq)).toEqual([1, 3]);
    expect(listOwed(b.view, a.view[0]!.installation)).toEqual([]);
  });

  test("what is named as seen and not here has to be fetched", () => {
    const { a, b } = twoTablets();
    expect(listMissing(b.view.slice(1))).toEqual([a.view[0]!.id]);
    expect(listMissing(a.view)).toEqual([]);
  });
});

describe("digest", () => {
  test("of canonical JSON: keys sorted, numbers and text as RFC 8785 prints them", () => {
    // SHA-256 of {"a":1,"b":"\u20ac"} in canonical form; the keys' order on input does not matter.
    expect(digestOf({ b: "\u20ac", a: 1 })).toBe(digestOf({ a: 1, b: "\u20ac" }));
    // SHA-256 of the two bytes "{}", as coreutils sha256sum prints it.
    expect(digestOf({})).toBe("44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a");
  });

  test("of a closing covers content and heads, not stamps or order", () => {
    const { a } = twoTablets();
    const heads = headsOf(a.view);
    const digest = closingDigest(a.view.map(wireOf), heads);
    expect(closingDigest([...a.view].reverse(), [...heads].reverse())).toBe(digest);
    expect(closingDigest(a.view.map(unstamped), heads)).toBe(digest);
    const changed = a.view.map((entry, index) => (index === 0 ? { ...entry, clockOffsetMs: 1 } : entry));
    expect(closingDigest(changed, heads)).not.toBe(digest);
    expect(closingDigest(a.view, [])).not.toBe(digest);
  });
});
