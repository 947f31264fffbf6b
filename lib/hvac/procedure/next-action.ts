import type { StepId } from "../log/step";
import type { JobGround } from "./job-ground";
import type { JobState } from "./state";
import { type NextCode, nextText } from "./words";

/** The one thing to do now. */
export function nextAction(
  ground: JobGround,
  proof: Pick<JobState, "steps" | "openStep" | "reviews">,
  closed: boolean,
): JobState["next"] {
  const say = (code: NextCode, step: StepId | null = null) => ({ code, step, text: nextText(code) });
  if (closed) return say("none");
  if (!ground.now.opened) return say("open-job");
  if (ground.log.missing.length > 0 || ground.log.gaps.length > 0) return say("wait-for-entries");
  if (proof.reviews.some(({ step }) => step === null)) return say("settle-review");
  if (ground.kindContradicted) return say("set-kind");
  const open = proof.steps.find(({ step }) => step === proof.openStep);
  if (open === undefined) return say(ground.kindInForce === "unknown" ? "set-kind" : "close-job");
  if (proof.reviews.some(({ step }) => step === open.step)) return say("settle-review", open.step);
  if (open.status === "needs-you") return say("wait-for-supervisor", open.step);
  if (open.status === "cannot-say") return say("complete-step", open.step);
  const latest = open.invalidated.at(-1)?.code;
  if (open.step === "open_repair" && latest === "tightness-test-failed") return say("repair-leak", open.step);
  if (open.step === "pressure_test" && latest === "hold-showed-leak") return say("find-leak", open.step);
  if (open.step === "evacuate" && latest === "hold-showed-water") return say("dry-again", open.step);
  return say(open.status === "refused" ? "repeat-step" : "do-step", open.step);
}
