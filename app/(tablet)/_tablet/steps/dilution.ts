import { micronToPa, toPa } from "@/lib/hvac";
import { planDilution } from "@/lib/hvac/rulebook";

const ROOM_K = 293.15;

/**
 * One part in how many of the gas first in the circuit is left after these sweeps; null while a figure is missing, or
 * where anything but nitrogen went in.
 */
export function onePartLeftIn(sweeps: readonly Readonly<Record<string, unknown>>[]): number | null {
  const cycles = [];
  for (const { pulledToMicron, brokenToKPaAbs, brokenWith } of sweeps) {
    if (brokenWith !== "nitrogen" || typeof pulledToMicron !== "number" || typeof brokenToKPaAbs !== "number")
      return null;
    const cycle = { pullToPa: micronToPa(pulledToMicron), breakToPa: toPa(brokenToKPaAbs, "kPa") };
    if (!(cycle.pullToPa > 0 && cycle.breakToPa > cycle.pullToPa)) return null;
    cycles.push(cycle);
  }
  return cycles.length === 0 ? null : 1 / planDilution(cycles, 1, ROOM_K).remainingFraction;
}
