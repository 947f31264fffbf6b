import { addMonths } from "@/lib/hvac/calendar-day";
import {
  type EuLeakCheckPlan,
  euRecheckAfterRepair,
  nextEuLeakCheck,
  planEuLeakChecks,
} from "@/lib/hvac/leak-checks-eu";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { EU_DETECTION_FROM, EU_SOURCES } from "@/lib/hvac/rules/eu-leak-checks";
import type { Addition, CircuitUnderLaw, Duty, LawEvent, LeakRateMethod, Standing } from "./duty";
import { leakRates } from "./leak-rates";

const certified = "owner-by-certified-person" as const;

/** Everything the EU regulation's leak rules ask of a circuit: checks by CO2 equivalent, and again after each repair. */
export function standingUnderEu(
  circuit: CircuitUnderLaw,
  additions: readonly Addition[],
  events: readonly LawEvent[],
  method: LeakRateMethod,
): Standing {
  const refrigerant = circuit.refrigerant === null ? undefined : findRefrigerant(circuit.refrigerant);
  const shared = { part: null, gwpSet: "eu-2024-573" } as const;
  if (refrigerant === undefined || circuit.fullChargeKg === null) {
    const text = "Its refrigerant or its full charge is not on record: how often it is checked cannot be said.";
    const coverage = { covered: false, text, ...EU_SOURCES.interval };
    return { ...shared, coverage, carbonDioxideEquivalentT: null, rates: [], duties: recheckDuties(events) };
  }
  const { detectionSystem, hermeticLabelled, fullChargeKg: chargeKg } = circuit;
  const plan = planEuLeakChecks({ refrigerant, chargeKg, detectionSystem, hermeticLabelled });
  return {
    ...shared,
    coverage: { covered: plan.everyMonths !== null, text: planText(plan), ...plan.source },
    carbonDioxideEquivalentT: plan.list === "annex-1" ? plan.carbonDioxideEquivalentT : null,
    rates: leakRates(circuit, additions, events, method).map((rate) => ({
      ...rate,
      triggerFraction: null,
      above: false,
    })),
    duties: [...checkDuty(plan, circuit, events), ...recheckDuties(events), ...detectionDuties(plan, circuit, events)],
  };
}

function planText(plan: EuLeakCheckPlan): string {
  const tonnes = `${plan.carbonDioxideEquivalentT.toFixed(1)} t CO2 equivalent`;
  switch (plan.reason) {
    case "interval":
      return `Checked for leaks every ${plan.everyMonths} months (${plan.list === "annex-1" ? tonnes : "by mass"}).`;
    case "below-threshold":
      return `Below the threshold for regular leak checks (${tonnes}).`;
    case "hermetic":
      return "Hermetically sealed and labelled so: no regular leak check below the limit.";
    case "not-listed":
      return "Its refrigerant is on neither list: no regular leak check by this regulation.";
  }
}

function checkDuty(plan: EuLeakCheckPlan, circuit: CircuitUnderLaw, events: readonly LawEvent[]): Duty[] {
  const since = lastOf(events, "leak-check", "recheck") ?? circuit.installedOn;
  const next = nextEuLeakCheck(plan, since);
  if (next === null) return [];
  const text = `Leak check at least every ${plan.everyMonths} months by a certified person.`;
  const { dueBy, source, mark } = next;
  return [{ code: "leak-check", since, text, from: null, dueBy, doneOn: null, whose: certified, source, mark }];
}

/** Each repair is looked at again, not before a day of running and within a month; a failed one asks for repair again. */
function recheckDuties(events: readonly LawEvent[]): Duty[] {
  const days = [...new Set(events.filter(({ kind }) => kind === "repair").map(({ on }) => on))].sort();
  const duties = days.map((on, index): Duty => {
    const { from, dueBy, source, mark } = euRecheckAfterRepair(on);
    const until = days[index + 1] ?? "9999";
    const done = events.find(
      (event) => event.kind === "recheck" && event.passed === true && event.on >= from && event.on < until,
    );
    const text = "Check the repaired place again, after a day of running and within a month.";
    return { code: "recheck", since: on, text, from, dueBy, doneOn: done?.on ?? null, whose: certified, source, mark };
  });
  return [...duties, ...repairDuty(events)];
}

function repairDuty(events: readonly LawEvent[]): Duty[] {
  const found = events.filter(({ kind, passed }) => (kind === "leak-check" || kind === "recheck") && passed === false);
  return found.map(({ on }): Duty => {
    const repaired = events.filter((event) => event.kind === "repair" && event.on >= on).map((event) => event.on);
    const text = "Repair the leak found without undue delay.";
    const source = { source: "Regulation (EU) 2024/573, Article 4", mark: "read" } as const;
    const whose = "owner-or-operator" as const;
    return {
      code: "repair",
      since: on,
      text,
      from: null,
      dueBy: on,
      doneOn: repaired.sort()[0] ?? null,
      whose,
      ...source,
    };
  });
}

function detectionDuties(plan: EuLeakCheckPlan, circuit: CircuitUnderLaw, events: readonly LawEvent[]): Duty[] {
  const { detectionSystem, installedOn } = circuit;
  const whose = "owner-or-operator" as const;
  const fitted = lastOf(events, "detection-fitted");
  const mandatory: Duty[] = plan.detectionMandatory
    ? [
        {
          code: "leak-detection",
          since: installedOn,
          text: "A leakage detection system is mandatory at 500 t CO2 equivalent, or 100 kg of HFO, and above.",
          from: null,
          dueBy: installedOn,
          doneOn: fitted ?? (detectionSystem ? installedOn : null),
          whose,
          ...EU_SOURCES.detection,
        },
      ]
    : [];
  if (!detectionSystem && fitted === null) return mandatory;
  const since = lastOf(events, "detection-check") ?? fitted ?? installedOn;
  const dueBy = addMonths(since, EU_DETECTION_FROM.checkedEveryMonths);
  const text = "Check that the leakage detection system works, every 12 months.";
  return [
    ...mandatory,
    { code: "detection-check", since, text, from: null, dueBy, doneOn: null, whose, ...EU_SOURCES.detection },
  ];
}

function lastOf(events: readonly LawEvent[], ...kinds: readonly LawEvent["kind"][]): string | null {
  return (
    events
      .filter(({ kind }) => kinds.includes(kind))
      .map(({ on }) => on)
      .sort()
      .at(-1) ?? null
  );
}
