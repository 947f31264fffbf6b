import { judgeCylinderFill } from "../cylinder";
import type { EntryContent, SkipGrounds } from "../log/entry";
import type { StepId } from "../log/step";
import { findRefrigerant } from "../refrigerants/refrigerant";
import { skipIsShown } from "./evidence";
import type { JobState, StepState } from "./state";
import { findTemplate } from "./template";
import { missingText, noEffectText, stepName } from "./words";

/** Something a person is about to do. What has been done already is recorded, never refused. */
export type Intention =
  | { readonly do: "begin-step"; readonly step: StepId }
  | { readonly do: "leave-step-out"; readonly step: StepId; readonly grounds: SkipGrounds }
  | { readonly do: "ask-override"; readonly step: StepId }
  | { readonly do: "set-kind"; readonly kind: JobState["kind"] }
  | { readonly do: "fill-cylinder"; readonly fill: IntendedFill }
  | { readonly do: "close-job" };

export interface IntendedFill {
  readonly waterCapacityKg: number;
  readonly tareKg: number;
  readonly contents: string | null;
  readonly requalificationDueOn: string | null;
  readonly disposable: boolean;
  readonly damaged: boolean;
  readonly markedForFlammables: boolean;
  /** Gross mass the scale would show afterwards. */
  readonly grossKg: number;
  readonly date: string;
}

export interface Refusal {
  readonly code: string;
  readonly step: StepId | null;
  readonly text: string;
}

/** What speaks against an intention as the log stands; empty: go ahead. The same on the tablet and on the server. */
export function refusalOf(state: JobState, intention: Intention): readonly Refusal[] {
  switch (intention.do) {
    case "begin-step":
      return beginRefusals(state, intention.step);
    case "leave-step-out":
      return skipRefusals(state, intention.step, intention.grounds);
    case "ask-override":
      return overrideRefusals(stateOf(state, intention.step));
    case "set-kind":
      return intention.kind === "component_swap_not_opened" && state.circuitWasOpened
        ? [{ code: "kind-contradicted", step: null, text: missingText("kind-contradicted", null) }]
        : [];
    case "fill-cylinder":
      return fillRefusals(state, intention.fill);
    case "close-job":
      return state.missingForClose;
  }
}

/** The intention an entry would state, if it states one; records of what happened state none. */
export function intentionIn(content: EntryContent): Intention | null {
  if (content.supersedes !== undefined) return null;
  switch (content.kind) {
    case "step-skipped":
      return { do: "leave-step-out", step: content.body.step, grounds: content.body.grounds };
    case "override-asked":
      return { do: "ask-override", step: content.body.step };
    case "job-kind-set":
      return { do: "set-kind", kind: content.body.jobKind };
    case "job-closed":
      return { do: "close-job" };
    default:
      return null;
  }
}

function beginRefusals(state: JobState, step: StepId): Refusal[] {
  const template = templateOf(state);
  const refusals: Refusal[] = [];
  if (!state.opened) refusals.push({ code: "job-not-opened", step: null, text: missingText("job-not-opened", null) });
  const settled = (need: StepId) => stateOf(state, need).settledBy !== null;
  // Safety comes first for every intention, though a record written before it is kept.
  const needs = step === "make_safe" ? [] : [...new Set<StepId>(["make_safe", ...template.steps[step].needs])];
  for (const need of needs) {
    if (settled(need)) continue;
    const text = `${stepName(need)} comes before ${stepName(step).toLowerCase()}: see to it first.`;
    refusals.push({ code: "not-its-turn", step: need, text });
  }
  return refusals;
}

function skipRefusals(state: JobState, step: StepId, grounds: SkipGrounds): Refusal[] {
  const allowed = templateOf(state).steps[step].skipReasons.includes(grounds.reason) && skipIsShown(grounds);
  if (!allowed) return [{ code: "skip-not-allowed", step, text: noEffectText("skip-not-allowed") }];
  const { entry, settledBy, invalidated } = stateOf(state, step);
  const wasDone = (entry !== null && settledBy !== "skip" && settledBy !== "override") || invalidated.length > 0;
  return wasDone ? [{ code: "skip-contradicted", step, text: noEffectText("skip-contradicted") }] : [];
}

function overrideRefusals({ step, override }: StepState): Refusal[] {
  if (override === "not-allowed") return [{ code: "ask-not-allowed", step, text: noEffectText("ask-not-allowed") }];
  if (override === "barred") return [{ code: "override-barred", step, text: noEffectText("override-barred") }];
  return [];
}

function fillRefusals(state: JobState, { grossKg, date, ...cylinder }: IntendedFill): Refusal[] {
  const fact = state.circuit?.refrigerant;
  const refrigerant = fact?.state === "identified" ? findRefrigerant(fact.refrigerant) : undefined;
  if (refrigerant === undefined) {
    const text = "Identify the refrigerant before it goes into a cylinder.";
    return [{ code: "refrigerant-unknown", step: "recover", text }];
  }
  const judgement = judgeCylinderFill({ tense: "intended", refrigerant, cylinder, grossKg, date });
  if (judgement.verdict !== "refused") return [];
  return judgement.reasons.map(({ code, text }) => ({ code, step: "recover" as const, text }));
}

function stateOf(state: JobState, step: StepId): StepState {
  const found = state.steps.find((one) => one.step === step);
  if (found === undefined) throw new Error(`the fold left out ${step}`);
  return found;
}

function templateOf(state: JobState) {
  const template = findTemplate(state.kindInForce, state.templateVersion) ?? findTemplate("unknown", 1);
  if (template === null) throw new Error("no template at all");
  return template;
}
