import type { CircuitFacts } from "../log/entry";

/**
 * Whether the extra steps for flammables are asked for. What nobody has identified counts as flammable until somebody
 * has.
 * @source classes 2L, 2 and 3: ISO 817, ASHRAE 34
 */
export function needsFlammableCare(circuit: CircuitFacts | null): boolean {
  const fact = circuit?.refrigerant;
  if (fact === undefined || fact.state === "unknown") return true;
  return fact.safetyClass !== "A1" && fact.safetyClass !== "B1";
}
