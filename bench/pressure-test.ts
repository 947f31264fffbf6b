import { pressureTestErrorRates } from "../tests/hvac/pressure-test/error-rates";
import { type Figure, median, printWhenStarted } from "./figure";

const TESTS = 250;

/** The nitrogen judge against known truth, beside first-and-last reading with the air's temperature taken out. */
export async function benchPressureTest(): Promise<readonly Figure[]> {
  const figures: Figure[] = [];
  for (const kind of ["one-body", "two-body"] as const) {
    const rates = pressureTestErrorRates(kind, 5000, 5000 + TESTS);
    const leaking = rates.count - rates.sound;
    const percent = (part: number, whole: number) => (whole === 0 ? 0 : (100 * part) / whole);
    const twoPoint = (part: number, whole: number) => ({ name: "two-point rule", value: percent(part, whole) });
    figures.push(
      {
        name: `${kind}: leaking circuits passed`,
        value: percent(rates.falsePasses, leaking),
        unit: "%",
        atMost: 0,
        beside: twoPoint(rates.twoPointPasses, leaking),
      },
      {
        name: `${kind}: provably sound circuits held back, of ${rates.provablySound}`,
        value: percent(rates.heldBack, rates.provablySound),
        unit: "%",
        beside: twoPoint(rates.twoPointHeldBack, rates.provablySound),
      },
      {
        name: `${kind}: provable leaks not named, of ${rates.provablyLeaking}`,
        value: percent(rates.provablyLeaking - rates.named, rates.provablyLeaking),
        unit: "%",
      },
      {
        name: `${kind}: sound circuits accused, of ${rates.sound}`,
        value: percent(rates.accused, rates.sound),
        unit: "%",
      },
      {
        name: `${kind}: truth outside the 95 % interval`,
        value: percent(rates.count - rates.covered, rates.count),
        unit: "%",
      },
      { name: `${kind}: time for one test, median`, value: median(rates.milliseconds), unit: "ms" },
    );
  }
  return figures;
}

await printWhenStarted(import.meta.url, benchPressureTest);
