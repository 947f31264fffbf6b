import type { JobGround } from "./job-ground";
import type { JobState, Missing, Review, StepState } from "./state";
import { type MissingCode, missingText } from "./words";

/** What keeps a job from closing, in the order in which to see to it; empty: it may close. */
export function missingForClose(state: JobState): readonly Missing[] {
  return state.missingForClose;
}

export function listMissingForClose(
  ground: JobGround,
  steps: readonly StepState[],
  reviews: readonly Review[],
): Missing[] {
  const { log, now } = ground;
  const missing: Missing[] = [];
  const add = (code: MissingCode) => missing.push({ code, step: null, text: missingText(code, null) });
  if (!now.opened) add("job-not-opened");
  if (!ground.templateKnown) add("template-unknown");
  if (log.missing.length > 0 || log.gaps.length > 0) add("entries-awaited");
  if (log.circular.length > 0) add("order-impossible");
  if (ground.kindContradicted) add("kind-contradicted");
  else if (ground.kindInForce === "unknown") add("kind-unknown");
  for (const { code, step, text } of reviews) if (step === null) missing.push({ code, step, text });
  for (const state of steps) {
    if (state.settledBy !== null) continue;
    const [first] = state.missing;
    if (state.missing.length > 0) missing.push(...state.missing);
    else if (first === undefined)
      missing.push({ code: "not-proven", step: state.step, text: missingText("not-proven", state.step) });
  }
  return missing;
}
