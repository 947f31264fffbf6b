import { addMonths } from "@/lib/hvac/calendar-day";
import { leakDetectionDueBy } from "@/lib/hvac/leak-duties";
import {
  CHRONIC_LEAK,
  INSPECTION_SOURCE,
  LEAK_DETECTION,
  LEAK_TRIGGER_SOURCES,
  type LeakRulePart,
  PART_84,
  QUARTERLY_INSPECTION_FROM_KG,
} from "@/lib/hvac/rules/us-leak";
import type { Addition, CircuitUnderLaw, Duty, LawEvent, LeakRateMethod, Standing } from "./duty";
import { caseDuties, followCase, type LeakCase } from "./leak-case";
import { byDay, leakRates, partOn } from "./leak-rates";

/**
 * Everything the US leak rules ask of a circuit, from its additions and what was done about them.
 *
 * @param asOf a day on which it is asked whether the rule holds the circuit at all; duties themselves know no today
 */
export function standingUnderUs(
  circuit: CircuitUnderLaw,
  additions: readonly Addition[],
  events: readonly LawEvent[],
  method: LeakRateMethod,
  asOf: string,
): Standing {
  const rates = leakRates(circuit, additions, events, method);
  const cases: LeakCase[] = [];
  for (const { on, above } of rates) {
    const open = cases.at(-1);
    const isOver = open === undefined || (closedBefore(open, on) ?? false);
    if (above && isOver) cases.push(followCase(on, events));
  }
  const part = partOn(circuit, asOf);
  return {
    coverage: coverageOf(circuit, part),
    part,
    gwpSet: "us-40cfr84",
    carbonDioxideEquivalentT: null,
    rates,
    duties: [
      ...cases.flatMap((leak) => caseDuties(leak, circuit.processShutdownNeeded)),
      ...inspectionDuty(circuit, cases.at(-1), rates.findLast(({ above }) => above)?.on, events),
      ...chronicDuties(circuit, additions, events),
      ...detectionDuty(circuit, part, events),
    ],
  };
}

function closedBefore({ closedOn, retrofittedOn }: LeakCase, day: string): boolean {
  const ended = closedOn ?? retrofittedOn;
  return ended !== null && ended < day;
}

function coverageOf(circuit: CircuitUnderLaw, part: LeakRulePart | null): Standing["coverage"] {
  if (part !== null) {
    const text = part === "part-82" ? "Held by Part 82: an ozone depleting refrigerant, 50 lb or more." : PART_84_TEXT;
    return { covered: true, text, ...LEAK_TRIGGER_SOURCES[part] };
  }
  const source = { source: "40 CFR 82.157, 84.106", mark: "secondary" } as const;
  if (circuit.refrigerant === null || circuit.fullChargeKg === null) {
    const text = "Its refrigerant or its full charge is not on record: whether the leak rules hold it cannot be said.";
    return { covered: false, text, ...source };
  }
  const text = circuit.residentialOrLightCommercial
    ? "Residential or light commercial air conditioning: outside the leak rules of Part 84."
    : "Below the charge, or by its refrigerant outside the leak rules.";
  return { covered: false, text, ...source };
}
const PART_84_TEXT = `Held by Part 84: an HFC or substitute above GWP ${PART_84.gwpAbove}, 15 lb or more, from ${PART_84.fromDate}.`;

/**
 * Inspections after the trigger was exceeded: quarterly for refrigeration of 500 lb or more, else yearly. Under Part 82 they end
 * after four quarters, or a year, below the trigger; for Part 84 no end is on our sheet, so none is taken.
 */
function inspectionDuty(
  circuit: CircuitUnderLaw,
  last: LeakCase | undefined,
  lastAbove: string | undefined,
  events: readonly LawEvent[],
): Duty[] {
  if (last === undefined || lastAbove === undefined || last.retrofittedOn !== null) return [];
  const refrigeration =
    circuit.use === "commercial-refrigeration" || circuit.use === "industrial-process-refrigeration";
  const quarterly = refrigeration && (circuit.fullChargeKg ?? 0) >= QUARTERLY_INSPECTION_FROM_KG * (1 - 1e-9);
  const everyMonths = quarterly ? 3 : 12;
  const made = events
    .filter(({ kind, on }) => kind === "leak-inspection" && on >= lastAbove)
    .map(({ on }) => on)
    .sort();
  if (partOn(circuit, lastAbove) === "part-82" && made.length >= (quarterly ? 4 : 1)) return [];
  const text = `Leak inspection ${quarterly ? "every three months" : "every year"} after the trigger was exceeded.`;
  const since = made.at(-1) ?? lastAbove;
  const dueBy = addMonths(since, everyMonths);
  return [
    {
      code: "leak-inspection",
      since,
      text,
      from: null,
      dueBy,
      doneOn: null,
      whose: "owner-or-operator",
      ...INSPECTION_SOURCE,
    },
  ];
}

/** @source 40 CFR 82.157(j): 125 % of the full charge or more in a calendar year */
function chronicDuties(circuit: CircuitUnderLaw, additions: readonly Addition[], events: readonly LawEvent[]): Duty[] {
  const { fullChargeKg } = circuit;
  if (fullChargeKg === null) return [];
  const years = new Map<string, number>();
  for (const { on, grams } of byDay(additions)) {
    if (partOn(circuit, on) !== null) years.set(on.slice(0, 4), (years.get(on.slice(0, 4)) ?? 0) + grams);
  }
  return [...years].flatMap(([year, grams]): Duty[] => {
    if (grams / 1000 < CHRONIC_LEAK.fraction * fullChargeKg * (1 - 1e-9)) return [];
    const since = `${year}-12-31`;
    const reported = events.find(({ kind, on }) => kind === "chronic-report" && on >= `${year}-01-01`)?.on ?? null;
    return [
      {
        code: "chronic-report",
        since,
        text: `${Math.round(grams / 10 / fullChargeKg)} % of the full charge was added in ${year}: report the chronic leak to the agency.`,
        from: null,
        dueBy: `${Number(year) + 1}-${CHRONIC_LEAK.reportBy}`,
        doneOn: reported,
        whose: "owner-or-operator",
        source: CHRONIC_LEAK.source,
        mark: CHRONIC_LEAK.mark,
      },
    ];
  });
}

function detectionDuty(circuit: CircuitUnderLaw, part: LeakRulePart | null, events: readonly LawEvent[]): Duty[] {
  const dueBy = leakDetectionDueBy(part, circuit.use, circuit.fullChargeKg ?? 0, circuit.installedOn);
  if (dueBy === null) return [];
  const fitted = events.find(({ kind }) => kind === "detection-fitted")?.on ?? null;
  return [
    {
      code: "leak-detection",
      since: circuit.installedOn,
      text: "Automatic leak detection on refrigeration of 1 500 lb or more.",
      from: null,
      dueBy,
      doneOn: fitted ?? (circuit.detectionSystem ? circuit.installedOn : null),
      whose: "owner-or-operator",
      source: LEAK_DETECTION.source,
      mark: LEAK_DETECTION.mark,
    },
  ];
}
