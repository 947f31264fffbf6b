import { expect, test } from "vitest";
import { onePartLeftIn } from "@/app/(tablet)/_tablet/steps/dilution";

const sweep = (pulledToMicron: number, brokenToKPaAbs = 101.325) => ({
  pulledToMicron,
  brokenToKPaAbs,
  brokenWith: "nitrogen",
});

/** Ideal mixing, broken to one atmosphere (computed): 6.58e-4 of the first gas, 1.316e-3, and three times that. */
test.each([
  { sweeps: [sweep(500)], parts: 1 / 6.58e-4 },
  { sweeps: [sweep(1000)], parts: 1 / 1.316e-3 },
  { sweeps: [sweep(1000), sweep(1000), sweep(1000)], parts: 1 / 2.28e-9 },
])("$sweeps leave one part in $parts", ({ sweeps, parts }) => {
  expect(Math.abs(onePartLeftIn(sweeps)! / parts - 1)).toBeLessThan(0.0025);
});

test("nothing is said of no sweep, of one half typed, of air let in, or of a break below its pull", () => {
  for (const sweeps of [
    [],
    [{ brokenWith: "nitrogen" }],
    [sweep(1000), { ...sweep(1000), brokenWith: "air" }],
    [sweep(700_000, 80)],
    [sweep(0)],
  ])
    expect(onePartLeftIn(sweeps)).toBeNull();
});
