import type { Strength } from "./judge-proof";

/** What limits a proof: how far it can reach at best, and why, in one sentence. */
export const PROOF_LIMITS = {
  "not-proven": ["none", "A required step is neither proven nor allowed."],
  "override-used": ["weak", "A supervisor allowed a step that was not proven."],
  "calibration-overdue": ["weak", "A gauge was past its calibration date."],
  "few-readings": ["weak", "The hold rests on fewer than five readings typed by hand."],
  "serious-alarm": ["weak", "Something happened during the work that should not have; see the alarms."],
  "criteria-loosened": ["fair", "The maker's criteria ask for less than the default."],
  "failed-test-corrected": ["fair", "A failed test was corrected and then repeated."],
  "record-corrected": ["fair", "The evidence of a test was corrected afterwards."],
  "typed-by-hand": ["fair", "The hold was typed by hand, not logged."],
  "temperature-not-logged": ["fair", "No temperatures were logged during the hold."],
  "scale-overdue": ["fair", "The charging scale was past its calibration date."],
  "calibration-unknown": ["fair", "A gauge has no calibration date."],
  "cores-left-in": ["fair", "Valve cores stayed in during evacuation."],
  "pump-oil-poor": ["fair", "The pump's oil was cloudy or dark, or nobody looked."],
  "leak-barely-bounded": ["fair", "The record could only just rule out a leak above the limit."],
  "level-near-limit": ["fair", "The level the circuit was heading for is close to the limit."],
  "leak-bound-unknown": ["fair", "The record does not say how small a leak it could have shown."],
  "detector-unrated": ["fair", "No joint was checked by a detector of known sensitivity."],
  "out-of-order": ["fair", "A step was recorded before the one it rests on."],
  "judged-otherwise": ["fair", "The tablet judged a test otherwise at the time."],
  "brazed-without-nitrogen": ["fair", "Joints were brazed without nitrogen flowing."],
  "no-new-drier": ["fair", "The circuit was opened and no new drier was fitted."],
  "circuit-not-tested": ["fair", "The circuit was not opened, and not tested either."],
} as const satisfies Readonly<Record<string, readonly [Strength, string]>>;
export type ProofLimitCode = keyof typeof PROOF_LIMITS;
