import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { massMoves } from "@/lib/hvac/procedure";
import type { CylinderId } from "@/lib/ids";
import {
  balancesOf,
  CAUSES,
  circuit,
  contentAfterJob,
  cylinder,
  foundShortGrams,
  type JobGround,
  type JobLine,
  jobLines,
  movement,
  PLACE_KINDS,
  type Place,
  type Posting,
  reconcile,
  reversalOf,
  type StandingLine,
} from "@/lib/ledger";
import { Tablet } from "../hvac/procedure/job-log";

const place: fc.Arbitrary<Place> = fc.oneof(
  fc
    .constantFrom(...PLACE_KINDS.filter((kind) => kind !== "cylinder" && kind !== "circuit"))
    .map((kind) => ({ kind }) as Place),
  fc.constantFrom("a", "b", "c").map(cylinder),
  fc.constantFrom("a", "b").map(circuit),
);
const posting: fc.Arbitrary<Posting> = fc.record({
  from: place,
  to: place,
  refrigerant: fc.constantFrom("R-410A", "R-32", "mixed"),
  grams: fc.integer({ min: 1, max: 2_000_000 }),
  cause: fc.constantFrom(...CAUSES),
  ownerId: fc.constantFrom(null, "customer"),
});
const sumOf = (postings: readonly Posting[]) => {
  const sums = new Map<string, number>();
  for (const held of balancesOf(postings).values())
    for (const [refrigerant, grams] of held) sums.set(refrigerant, (sums.get(refrigerant) ?? 0) + grams);
  return [...sums.values()];
};
const plain = (postings: readonly Posting[]) =>
  Object.fromEntries(
    [...balancesOf(postings)].map(([key, held]) => [
      key,
      Object.fromEntries([...held].filter(([, grams]) => grams !== 0)),
    ]),
  );

describe("double entry by mass", () => {
  test("any sequence of postings balances: what all places hold of a refrigerant sums to nothing", () => {
    fc.assert(
      fc.property(fc.array(posting, { maxLength: 60 }), (all) => {
        for (const sum of sumOf(all)) expect(sum).toBe(0);
      }),
    );
  });

  test("the order of postings does not count, and a posting with its reversal is as none", () => {
    fc.assert(
      fc.property(fc.array(posting, { maxLength: 30 }), posting, (all, one) => {
        expect(plain([...all].reverse())).toEqual(plain(all));
        const empty = Object.fromEntries(Object.keys(plain([one])).map((key) => [key, {}]));
        expect({ ...empty, ...plain([one, ...all, reversalOf(one)]) }).toEqual({ ...empty, ...plain(all) });
      }),
    );
  });

  test("a negative movement is the same mass the other way round, and nothing is no posting", () => {
    const of = { from: cylinder("a"), to: circuit("b"), refrigerant: "R-32", cause: "charge", ownerId: null } as const;
    expect(movement({ ...of, grams: -40 })).toEqual({ ...of, from: of.to, to: of.from, grams: 40 });
    expect(movement({ ...of, grams: 0 })).toBeNull();
  });
});

const C1 = "66666666-6666-4666-8666-666666666666" as CylinderId;
const ground: JobGround = {
  circuitId: "circuit",
  customerId: "customer",
  refrigerant: { state: "identified", refrigerant: "R-410A", safetyClass: "A1", pressureClass: "high" },
  cylinders: new Set([C1]),
};
const from = (label: string, grossBeforeKg: number, grossAfterKg: number, cylinderId: CylinderId | null = C1) => ({
  cylinderId,
  label,
  refrigerant: "R-410A",
  grossBeforeKg,
  grossAfterKg,
});
const into = (...of: Parameters<typeof from>) => ({ ...from(...of), stamp: null });
const linesOf = (tablet: Tablet, change: Partial<JobGround> = {}) =>
  jobLines(massMoves(tablet.view), { ...ground, ...change });
const told = (lines: readonly JobLine[]) =>
  lines.map(({ from, to, grams, cause }) => [cause, from.kind, to.kind, grams]);

describe("a job's postings", () => {
  test("what was recovered goes into its cylinder as the customer's, what was charged comes out of one", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    tablet.record("recover", { cylinders: [into("C1", 15, 18.1)] });
    tablet.record("break_and_charge", { weighedInKg: 3.2, cylinders: [from("C1", 18.1, 14.9)] });
    const lines = linesOf(tablet);
    expect(told(lines)).toEqual([
      ["recovery", "circuit", "cylinder", 3100],
      ["charge", "cylinder", "circuit", 3200],
    ]);
    expect(lines.map(({ ownerId, scaleGrams }) => [ownerId, scaleGrams])).toEqual([
      ["customer", 18_100],
      [null, 14_900],
    ]);
  });

  test("a cylinder the register does not know, and mass no weighing explains, stand against the unnamed one", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    tablet.record("recover", { cylinders: [into("some cylinder", 15, 16, null)] });
    tablet.record("break_and_charge", { weighedInKg: 3.2, cylinders: [from("C1", 20, 17)] });
    expect(told(linesOf(tablet))).toEqual([
      ["recovery", "circuit", "unnamed", 1000],
      ["charge", "cylinder", "circuit", 3000],
      ["charge", "unnamed", "circuit", 200],
    ]);
  });

  test("charge taken out again is posted the other way", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    tablet.record("break_and_charge", { weighedInKg: -0.15, cylinders: [from("C1", 14.9, 15.05)] });
    expect(told(linesOf(tablet))).toEqual([["charge", "circuit", "cylinder", 150]]);
  });

  test("a mixture is posted as one, whatever the cylinder says", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    tablet.record("recover", { cylinders: [into("C1", 15, 16)] });
    const refrigerant = { state: "mixed", safetyClass: null, pressureClass: null, note: "two were found" } as const;
    expect(linesOf(tablet, { refrigerant })[0]).toMatchObject({ refrigerant: "mixed" });
  });

  test("[L7] a correction supersedes: the old line is reversed, the new one posted, the rest left alone", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    const wrong = tablet.record("recover", { cylinders: [into("C1", 15, 18.1)] });
    tablet.record("break_and_charge", { weighedInKg: 3.2, cylinders: [from("C1", 18.1, 14.9)] });
    const standing = linesOf(tablet).map((line, index) => ({ ...line, id: String(index) }));
    tablet.correct(wrong, "recover", { cylinders: [into("C1", 15, 18.4)] });
    const { reverse, post } = reconcile(standing, linesOf(tablet));
    expect(reverse.map(({ id }) => id)).toEqual(["0"]);
    expect(told(post)).toEqual([["recovery", "circuit", "cylinder", 3400]]);
  });

  test("weighings one after the other close to the gram, whatever digits the scale has", () => {
    const readings = fc.array(fc.double({ min: 5, max: 60, noNaN: true }), { minLength: 2, maxLength: 12 });
    fc.assert(
      fc.property(readings, (gross) => {
        const tablet = new Tablet(1);
        tablet.open("leak_repair");
        const cylinders = gross.slice(1).map((after, index) => into("C1", gross[index]!, after));
        tablet.record("recover", { cylinders });
        const held = balancesOf(linesOf(tablet)).get(`cylinder:${C1}`)?.get("R-410A") ?? 0;
        expect(held).toBe(Math.round(gross.at(-1)! * 1000) - Math.round(gross[0]! * 1000));
      }),
      { numRuns: 40 },
    );
  });
});

describe("bringing the books to what the log says", () => {
  const key = fc.constantFrom("r1/0", "r1/1", "r2/0", "r3/0");
  const line = fc
    .tuple(posting, key)
    .map(([each, named]): JobLine => ({ ...each, key: named, entry: "e", person: "p", at: "", scaleGrams: null }));
  const lines = fc.uniqueArray(line, { selector: ({ key: named }) => named });

  test("from any standing lines to any expected ones, and a second time there is nothing to do", () => {
    fc.assert(
      fc.property(lines, lines, (before, expected) => {
        const standing: StandingLine[] = before.map((each, index) => ({ ...each, id: String(index) }));
        const { reverse, post } = reconcile(standing, expected);
        const books = [...standing, ...reverse.map(reversalOf), ...post];
        const drop = ([, held]: [string, object]) => Object.keys(held).length > 0;
        const clean = (all: readonly Posting[]) => Object.fromEntries(Object.entries(plain(all)).filter(drop));
        expect(clean(books)).toEqual(clean(expected));
        const now = [...standing.filter((each) => !reverse.includes(each)), ...post].map((each, index) => ({
          ...each,
          id: String(index),
        }));
        expect(reconcile(now, expected)).toEqual({ reverse: [], post: [] });
      }),
    );
  });
});

describe("what a circuit holds after a job", () => {
  const closed = (circuitWasOpened: boolean) => ({
    status: "closed" as const,
    circuitWasOpened,
    steps: [{ step: "evacuate", settledBy: circuitWasOpened ? "record" : null } as never],
  });

  test("opened and evacuated: what was weighed in since; the rest of what the books had is lost", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    tablet.record("recover", { cylinders: [into("C1", 15, 17.4)] });
    tablet.record("break_and_charge", { weighedInKg: 3.2, cylinders: [from("C1", 18.2, 15)] });
    const moves = massMoves(tablet.view);
    expect(contentAfterJob(closed(true), tablet.view, moves, 3200)).toBe(3200);
    const book = 3200 - 2400 + 3200; // full before, by the books
    expect(foundShortGrams(book, 3200)).toBe(800);
  });

  test("topped up: its full charge where known; and nothing is said of an open job or a precharged unit", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    tablet.record("break_and_charge", { weighedInKg: 0.5, cylinders: [from("C1", 15, 14.5)] });
    const moves = massMoves(tablet.view);
    expect(contentAfterJob(closed(false), tablet.view, moves, 3200)).toBe(3200);
    expect(contentAfterJob(closed(false), tablet.view, moves, null)).toBeNull();
    expect(contentAfterJob({ ...closed(false), status: "open" }, tablet.view, moves, 3200)).toBeNull();
    const precharged = new Tablet(2);
    precharged.open("new_install_precharged");
    precharged.record("break_and_charge", { brokenWith: "factory-charge", weighedInKg: 0.2 });
    expect(contentAfterJob(closed(true), precharged.view, massMoves(precharged.view), 3200)).toBeNull();
  });

  test("a circuit that held more than the books explain loses nothing: that is for a person", () => {
    expect(foundShortGrams(3000, 3200)).toBe(0);
  });
});
