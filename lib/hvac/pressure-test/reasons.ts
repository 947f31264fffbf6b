import type { PressureTestReason, PressureTestReasonCode } from "./record";

const TEXTS: Record<PressureTestReasonCode, string> = {
  "above-limit":
    "A reading is above the limit of the weakest part connected: let pressure off now, and have that part checked before going on.",
  "too-few-readings": "Fewer than three readings show nothing: read pressure and temperature at regular intervals.",
  "below-test-pressure": "The first reading is below the test pressure: fill to it, let the gas settle, start again.",
  "hold-too-short": "The hold is shorter than asked: leave it shut and go on reading.",
  "leak-within-limit": "The pressure change is explained by temperature; no leak above the limit.",
  "leak-above-limit":
    "Gas is being lost faster than allowed: find the leak with bubbles or a detector, repair, test again.",
  "leak-not-bounded":
    "This record fits both a leak above the limit and none: keep holding and reading until the gas has settled.",
  "gas-added": "Gas came in during the test: shut the nitrogen cylinder, take its hose off, and start the hold again.",
  "pressure-ignores-air":
    "The pressure took no notice of the temperature: check that the cylinder is shut and that the gauge's valve is open.",
  "late-loss": "The pressure falls faster towards the end than at the start: keep holding and look at the joints.",
  "temperature-unsettled": "The gas had not settled to the air around it: wait longer, out of the sun if possible.",
  "gauge-too-coarse": "The gauge's steps are too coarse for this limit and time: use a finer gauge or hold longer.",
};

export function reason(code: PressureTestReasonCode): PressureTestReason {
  return { code, text: TEXTS[code] };
}
