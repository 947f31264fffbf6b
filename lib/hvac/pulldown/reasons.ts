import type { PulldownReason, PulldownReasonCode } from "./record";

/** Reasons whose words carry figures are made where the figures are. */
type FixedCode = Exclude<PulldownReasonCode, "cores-out-save" | "wider-hoses-save">;

const TEXTS: Record<FixedCode, string> = {
  "on-course": "The pressure is on its way to the target.",
  reached: "The target is reached: isolate the circuit from the pump and start the hold.",
  "too-early":
    "Too few readings to lean on: any time given comes from the plates of pump and hoses. Keep the pump running and read on.",
  "stalled-by-leak":
    "Air is coming in about as fast as the pump takes it out: prove hoses and core tools first, then look for the leak.",
  "stalled-by-water":
    "Water is boiling off and holds the pressure up: sweep with dry nitrogen and warm the circuit, without a flame.",
  "stalled-by-pump": "The pump does not pull below this: change its oil and prove it blanked off with the gauge on it.",
  "stalled-by-restriction":
    "The way to the pump is too narrow: take the valve cores out, use wide short hoses, look for a kink.",
  "stalled-by-outgassing":
    "Gas keeps leaving oil and walls: keep pumping, warm the compressor oil, or sweep with dry nitrogen.",
  "leak-or-pump":
    "A leak and tired pump oil look the same from here: blank the pump off with the gauge on it. High there: change the oil. Deep there: look for the leak.",
  restricted: "Hoses or cores take more than half of the pump's speed: take the cores out and use wide short hoses.",
  "gauge-at-pump": "The gauge sits at the pump and reads lower than the circuit: move it to the far side.",
  "slow-pump": "The pump moves less than half of what its plate says: check oil, belt, voltage and gas ballast.",
  "water-present": "Part of what is pumped is water vapour: keep the circuit warm and expect the pressure to pause.",
};

export function reason(code: FixedCode): PulldownReason {
  return { code, text: TEXTS[code] };
}
