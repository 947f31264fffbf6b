import { pressureTestErrorRates } from "../tests/hvac/pressure-test/error-rates";
import { type Figure, median, printWhenStarted } from "./figure";

/** Or as many as are asked for: `node --import tsx bench/pressure-test.ts 3000 20000` judges 3000 of each from seed 20000. */
const TESTS = 330;
const FIRST_SEED = 5000;

/** The nitrogen judge against known truth, beside first-and-last reading with the air's temperature taken out. */
export async function benchPressureTest(): Promise<readonly Figure[]> {
  const figures: Figure[] = [];
  const asked = process.argv[1]?.endsWith("pressure-test.ts") ? process.argv.slice(2).map(Number) : [];
  const [tests = TESTS, first = FIRST_SEED] = asked;
  for (const kind of ["one-body", "two-body", "every-kind"] as const) {
    const rates = pressureTestErrorRates(kind, first, first + tests);
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
      ...(rates.widths.length === 0
        ? []
        : [
            {
              name: `${kind}: width of the interval against the best possible, median`,
              value: median(rates.widths),
              unit: "",
            },
          ]),
      { name: `${kind}: time for one test, median`, value: median(rates.milliseconds), unit: "ms" },
    );
  }
  return figures;
}

await printWhenStarted(import.meta.url, benchPressureTest);
