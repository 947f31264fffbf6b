import { daysBetween } from "@/lib/hvac/calendar-day";
import { judgeLeakRate } from "@/lib/hvac/leak-duties";
import { annualizedLeakRate, leakRulePart, rollingLeakRate } from "@/lib/hvac/leak-rate";
import { globalWarmingPotential } from "@/lib/hvac/refrigerants/global-warming";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import type { LeakRulePart } from "@/lib/hvac/rules/us-leak";
import type { Addition, CircuitUnderLaw, LawEvent, LeakRateAt, LeakRateMethod } from "./duty";

/** Additions of one day as one, oldest first: several in one service event count as one. */
export function byDay(additions: readonly Addition[]): Addition[] {
  const days = new Map<string, number>();
  for (const { on, grams } of additions) days.set(on, (days.get(on) ?? 0) + grams);
  return [...days]
    .map(([on, grams]) => ({ on, grams }))
    .filter(({ grams }) => grams > 0)
    .sort((a, b) => (a.on < b.on ? -1 : 1));
}

/** Which part of the US rule holds the circuit on a day; null where its refrigerant or charge is not known, or neither does. */
export function partOn(circuit: CircuitUnderLaw, date: string): LeakRulePart | null {
  const refrigerant = circuit.refrigerant === null ? undefined : findRefrigerant(circuit.refrigerant);
  if (refrigerant === undefined || circuit.fullChargeKg === null) return null;
  return leakRulePart({
    ozoneDepleting: refrigerant.family === "HCFC",
    gwp: globalWarmingPotential(refrigerant, "us-40cfr84"),
    fullChargeKg: circuit.fullChargeKg,
    use: circuit.use,
    residentialOrLightCommercial: circuit.residentialOrLightCommercial,
    date,
  });
}

/**
 * The leak rate at each addition by the company's one method, and whether it was above the trigger.
 *
 * @source 40 CFR 82.152, 84.102 "leak rate"; triggers 82.157(c), 84.106
 */
export function leakRates(
  circuit: CircuitUnderLaw,
  additions: readonly Addition[],
  events: readonly LawEvent[],
  method: LeakRateMethod,
): LeakRateAt[] {
  const { fullChargeKg } = circuit;
  const days = byDay(additions);
  if (fullChargeKg === null) return [];
  return days.flatMap(({ on, grams }, index): LeakRateAt[] => {
    const rate =
      method === "annualizing"
        ? annualizedLeakRate(grams / 1000, fullChargeKg, sinceLast(days, index))
        : rollingLeakRate(
            days.map((each) => ({ date: each.on, addedKg: each.grams / 1000 })),
            fullChargeKg,
            on,
            lastVerified(events, on),
          );
    if (!rate.ok) return [];
    const judged = judgeLeakRate({
      part: partOn(circuit, on),
      use: circuit.use,
      leakFraction: rate.value,
      fullChargeKg,
      date: on,
      processShutdownNeeded: circuit.processShutdownNeeded,
      addedThisYearKg: 0,
    });
    const { triggerFraction, verdict } = judged;
    return [{ on, grams, fraction: rate.value, method, triggerFraction, above: verdict === "above-trigger" }];
  });
}

function sinceLast(days: readonly Addition[], index: number): number | null {
  const before = days[index - 1];
  return before === undefined ? null : daysBetween(before.on, days[index]!.on);
}

function lastVerified(events: readonly LawEvent[], before: string): string | undefined {
  return events
    .filter(({ kind, passed, on }) => kind === "follow-up-verification" && passed === true && on < before)
    .map(({ on }) => on)
    .sort()
    .at(-1);
}
