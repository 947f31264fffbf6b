import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cylinderLimit } from "@/lib/hvac/cylinder";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import {
  type CylinderInBooks,
  type CylinderToCheck,
  type Fill,
  findExceptions,
  objectionsToDraw,
  objectionsToFill,
} from "@/lib/ledger";

const cylinder: CylinderInBooks = {
  label: "C1",
  contents: "recovered",
  refrigerant: null,
  waterCapacityKg: 21.6,
  tareKg: 12,
  requalifyBy: "2028-04-30",
  refillable: true,
  forFlammables: false,
  grams: {},
  owners: [],
  reservedIn: 0,
  reservedOut: 0,
};
const fill: Fill = { tense: "intended", refrigerant: "R-410A", grams: 3000, ownerId: "oak", day: "2026-11-25" };
const against = (over: Partial<CylinderInBooks>, of: Partial<Fill> = {}) =>
  objectionsToFill({ ...cylinder, ...over }, { ...fill, ...of }).map(({ code }) => code);
const drawn = (over: Partial<CylinderInBooks>, customer: string | null = "oak", grams = 1000) =>
  objectionsToDraw({ ...cylinder, ...over }, { tense: "intended", refrigerant: "R-410A", grams }, customer).map(
    ({ code }) => code,
  );

describe("filling a cylinder by the books", () => {
  test("one refrigerant, in date, within the limit: nothing stands against it", () => {
    expect(against({ grams: { "R-410A": 4000 }, owners: ["oak"] })).toEqual([]);
  });

  test("what is promised already counts against a plan, and not against what has happened", () => {
    const nearlyFull = { grams: { "R-410A": 10_000 }, reservedIn: 6000 };
    expect(against(nearlyFull)).toContain("over-limit");
    expect(against(nearlyFull, { tense: "happened" })).toEqual([]);
  });

  test("another refrigerant, or another owner's, is objected to", () => {
    expect(against({ grams: { "R-32": 500 } })).toContain("other-refrigerant");
    expect(against({ grams: { "R-410A": 500 }, owners: ["elm"] })).toEqual(["several-owners"]);
  });

  test("a mixture or an unknown only into a cylinder marked for it, and that one takes nothing else", () => {
    for (const refrigerant of ["mixed", "unknown"]) {
      expect(against({}, { refrigerant })).toEqual(["mixture-needs-marked-cylinder"]);
      expect(against({ contents: "mixed-or-unknown" }, { refrigerant })).toEqual([]);
    }
    expect(against({ contents: "mixed-or-unknown" })).toContain("mixture-cylinder-holds-nothing-else");
  });

  test("a plan without objection never passes the fill limit, whatever is in it and promised", () => {
    const limit = cylinderLimit(
      {
        waterCapacityKg: 21.6,
        tareKg: 12,
        contents: null,
        requalificationDueOn: "2028-04-30",
        disposable: false,
        damaged: false,
        markedForFlammables: false,
      },
      findRefrigerant("R-410A")!,
    );
    const grams = fc.integer({ min: 0, max: 25_000 });
    fc.assert(
      fc.property(grams, grams, grams, (held, reservedIn, asked) => {
        if (against({ grams: { "R-410A": held }, reservedIn }, { grams: asked }).length > 0) return;
        expect(held + reservedIn + asked).toBeLessThanOrEqual(limit.ok ? limit.value.netKg * 1000 * (1 + 1e-6) : 0);
      }),
    );
  });
});

describe("taking refrigerant out of a cylinder", () => {
  test("recovered refrigerant goes back to its owner and to nobody else", () => {
    const held = { grams: { "R-410A": 5000 }, owners: ["oak"] };
    expect(drawn(held)).toEqual([]);
    expect(drawn(held, "elm")).toEqual(["other-owner"]);
  });

  test("no more than is there and not promised; a mixture not at all", () => {
    expect(drawn({ grams: { "R-410A": 5000 }, reservedOut: 4500 })).toEqual(["not-enough"]);
    expect(drawn({ grams: { "R-410A": 5000 }, contents: "mixed-or-unknown" })).toEqual([
      "mixture-needs-marked-cylinder",
    ]);
  });
});

describe("what does not balance", () => {
  const checked: CylinderToCheck = { ...cylinder, id: "c1", grams: { "R-410A": 5000 }, lastScaleGrams: 17_000 };
  const found = (over: Partial<CylinderToCheck>) =>
    findExceptions({ cylinders: [{ ...checked, ...over }], circuits: [], unnamed: {} }).map(({ code }) => code);

  test("books that agree with the scale are no exception", () => {
    expect(found({})).toEqual([]);
  });

  test.each([
    ["more went out than came in", { grams: { "R-410A": -1 }, lastScaleGrams: null }, "cylinder-below-nothing"],
    ["more than the limit", { grams: { "R-410A": 19_000 }, lastScaleGrams: null }, "cylinder-overfilled"],
    ["two refrigerants", { grams: { "R-410A": 2500, "R-32": 2500 } }, "cylinder-two-refrigerants"],
    ["a scale that says otherwise", { lastScaleGrams: 16_900 }, "cylinder-off-the-scale"],
    ["two owners", { owners: ["oak", "elm"] }, "cylinder-several-owners"],
  ] as const)("%s is one", (_what, over, code) => {
    expect(found(over)).toEqual([code]);
  });

  test("a circuit below nothing or over its full charge, and a cylinder nobody named, the largest first", () => {
    const circuit = { id: "k1", name: "RTU-1", fullChargeGrams: 3200, grams: { "R-410A": 3900 } };
    const below = { ...circuit, id: "k2", grams: { "R-410A": -50 } };
    const all = findExceptions({ cylinders: [], circuits: [circuit, below], unnamed: { "R-410A": 200, "R-32": 0 } });
    expect(all.map(({ code, grams }) => [code, grams])).toEqual([
      ["circuit-over-full-charge", 700],
      ["unnamed-cylinder", 200],
      ["circuit-below-nothing", -50],
    ]);
  });
});
