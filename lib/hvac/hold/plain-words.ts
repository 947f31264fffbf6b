import { paToMicron } from "../units";
import type { HoldAction, HoldReasonCode, HoldVerdict } from "./judgement";
import type { HoldTerms } from "./record";

/** The figures the sentences speak of. */
export interface ReasonFacts {
  readonly terms: HoldTerms;
  readonly lastS: number;
  readonly lastPa: number;
  readonly leakPaPerS: readonly [number, number];
  readonly levelPa: readonly [lowest: number, estimate: number, highest: number];
  readonly ignored: number;
}

/** The sentence a technician reads for a reason, in micron and minutes. */
export function reasonText(code: HoldReasonCode, facts: ReasonFacts): string {
  const { criteria } = facts.terms;
  const limit = micron(criteria.maxFinalPa);
  const allowed = perMinute(criteria.maxSteadyRisePaPerS);
  switch (code) {
    case "rise-fades":
      return `The rise fades: no leak above ${perMinute(facts.leakPaPerS[1])}, where ${allowed} is allowed.`;
    case "level-holds":
      return `The pressure levels off at about ${micron(facts.levelPa[1])}, under the limit of ${limit}.`;
    case "steady-rise-above-limit":
      return `The pressure goes on rising by at least ${perMinute(facts.leakPaPerS[0])} without fading; ${allowed} is allowed.`;
    case "late-leak":
      return "The steady rise began during the hold: think of what was touched, warmed or opened at that moment.";
    case "level-above-limit":
      return `The pressure is heading for about ${micron(facts.levelPa[1])}, above the limit of ${limit}: water, or refrigerant leaving the oil.`;
    case "near-water-line":
      return "That level is the vapour pressure of water at the coil's temperature: there is water or ice inside.";
    case "too-few-readings":
      return "There are fewer than three usable readings: read the gauge at isolation, at the end and in between.";
    case "hold-too-short":
      return `The record ends at ${minutes(facts.lastS)}; the criteria ask for ${minutes(criteria.holdS)}.`;
    case "start-above-target":
      return `The hold began above the target of ${micron(criteria.targetPa)}: pull down further before isolating.`;
    case "gauge-at-pump":
      return "The gauge sits on the pump's side, where it does not see the isolated circuit: move it to the system.";
    case "gauge-stuck":
      return "The reading stands still, and a gauge at rest looks like one that has died: check battery, sensor and valve.";
    case "gauge-too-coarse":
      return "The gauge's steps are too coarse for the rise that is allowed: use a finer gauge or a longer hold.";
    case "not-isolated":
      return "The pressure falls as if a pump were still drawing: close the valve to the pump and start the hold again.";
    case "pump-restarted":
      return "The pressure fell during the hold as if the pump had been opened to the circuit again: start over.";
    case "gap-in-record":
      return "Too long a stretch of the hold has no readings: what happened in it cannot be known.";
    case "last-readings-missing":
      return "The last readings of the hold are unusable or missing: go on reading the gauge to the end.";
    case "still-heading-for-limit":
      return `The rise may still end above the limit of ${limit}: up to ${micron(facts.levelPa[2])} is possible.`;
    case "leak-not-bounded":
      return `A leak of up to ${perMinute(facts.leakPaPerS[1])} cannot be ruled out; ${allowed} is allowed.`;
    case "temperature-hides-leak":
      return "The circuit cooled during the hold, which can hide a leak: hold again at a steady temperature.";
    case "pressure-disturbed":
      return "The pressure moved in ways neither a sound nor a leaking circuit explains: look for sun, heaters or a loose hose.";
    case "readings-ignored":
      return `${facts.ignored} reading${facts.ignored === 1 ? " was" : "s were"} set aside as nonsense from the gauge or its radio.`;
    case "valve-can-hide-leak":
      return "A leaking isolation valve towards a running pump can hide a leak: the pump must be off or its hose vented.";
  }
}

/** The one thing to do next. */
export function nextAction(verdict: HoldVerdict, codes: readonly HoldReasonCode[], facts: ReasonFacts): HoldAction {
  const { criteria } = facts.terms;
  const has = (code: HoldReasonCode) => codes.includes(code);
  switch (verdict) {
    case "dry-and-tight":
      return {
        code: "break-vacuum-and-charge",
        text: "Break the vacuum with refrigerant as the maker says, and charge.",
      };
    case "wet":
      return {
        code: "sweep-with-nitrogen",
        text: "Break the vacuum with dry nitrogen, warm the coil without flame, and evacuate again.",
      };
    case "leaking":
      return {
        code: "prove-rig-first",
        text: "Prove your own rig first: blank off hoses, core tools and gauge. If they hold, pressurise with nitrogen and look for the leak.",
      };
    case "wet-and-leaking":
      return {
        code: "look-for-leak",
        text: "Prove your own rig first, then pressurise with dry nitrogen and look for the leak; the nitrogen also helps to dry.",
      };
    case "unproven":
      break;
  }
  if (has("gauge-at-pump")) return { code: "move-gauge", text: "Move the gauge to the system, far from the pump." };
  if (has("gauge-stuck"))
    return {
      code: "check-gauge",
      text: "See that the gauge still moves when a little dry nitrogen goes in, or use one with finer steps; then hold again.",
    };
  if (has("not-isolated") || has("pump-restarted"))
    return { code: "close-pump-valve", text: "Close the valve to the pump, stop the pump, and start the hold again." };
  if (has("start-above-target"))
    return { code: "start-again-below-target", text: "Pull down to the target, isolate, and start the hold again." };
  if (has("pressure-disturbed"))
    return {
      code: "record-temperature",
      text: "Hold again with a thermometer on the coil, shaded and with heaters off, and hoses out of the way.",
    };
  if (has("temperature-hides-leak") || has("gap-in-record"))
    return { code: "hold-again", text: "Hold again, with readings throughout and the coil at a steady temperature." };
  const leftS = criteria.holdS - facts.lastS;
  const waitS = Math.max(60, Math.ceil((leftS > 0 ? leftS : criteria.holdS / 2) / 60) * 60);
  return { code: "wait", text: `Keep the circuit isolated and go on reading for ${minutes(waitS)}.`, waitS };
}

function micron(pressurePa: number): string {
  const value = paToMicron(pressurePa);
  return `${value < 10 ? value.toFixed(1) : Math.round(value)} micron`;
}

function perMinute(paPerS: number): string {
  const value = paToMicron(paPerS * 60);
  return `${value < 10 ? value.toFixed(1) : Math.round(value)} micron/min`;
}

function minutes(seconds: number): string {
  const value = Math.round(seconds / 6) / 10;
  return `${value} ${value === 1 ? "minute" : "minutes"}`;
}
