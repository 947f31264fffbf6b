import { findRefrigerant, isFlammable, type PressureClass } from "@/lib/hvac/refrigerants/refrigerant";

export interface Certificate {
  kind: string;
  expiresOn: Date | null;
}

export interface CircuitDemand {
  ruleSet: "us" | "eu";
  pressureClass: PressureClass | null;
  /** Factory sealed with at most 5 lb (US); null where the register does not say. */
  smallAppliance: boolean;
  flammable: boolean;
  family: "ammonia" | "carbon-dioxide" | "other";
  chargeKg: number | null;
}

/** A circuit as the register holds it, as far as it decides who may open it. */
export interface CertifiedCircuit {
  refrigerantState: string;
  actualRefrigerant: string | null;
  factoryChargeKg: number | null;
  applianceKind: string;
}

/** @source 40 CFR 82.152, "small appliance": fully made, charged and sealed in a factory, five pounds or less (from memory) */
const SMALL_APPLIANCE_MOST_KG = 5 * 0.453_592_37;
/** @source Implementing Regulation (EU) 2024/2215: A2 up to 3 kg, hermetically sealed 6 kg (limits from memory) */
const A2_BELOW_KG = 3;
const A2_SEALED_BELOW_KG = 6;

/**
 * What opening this circuit asks of a person. A mixture, and what nobody has identified, asks for the widest certificate and counts as
 * flammable until somebody has.
 */
export function circuitDemandOf(circuit: CertifiedCircuit, ruleSet: "us" | "eu"): CircuitDemand {
  const { refrigerantState, actualRefrigerant, factoryChargeKg, applianceKind } = circuit;
  const identified = refrigerantState === "identified" || refrigerantState === "retrofitted";
  const known = identified && actualRefrigerant !== null ? findRefrigerant(actualRefrigerant) : undefined;
  return {
    ruleSet,
    pressureClass: known?.pressureClass ?? null,
    smallAppliance:
      applianceKind === "small_appliance" && (factoryChargeKg === null || factoryChargeKg <= SMALL_APPLIANCE_MOST_KG),
    flammable: known === undefined || isFlammable(known.safetyClass),
    family: known?.family === "NH3" ? "ammonia" : known?.family === "CO2" ? "carbon-dioxide" : "other",
    chargeKg: factoryChargeKg,
  };
}

/** The certificates any one of which is enough to open this circuit. */
export function listAcceptedCertificates(demand: CircuitDemand): readonly string[] {
  return demand.ruleSet === "us" ? usTypes(demand) : euCategories(demand);
}

/**
 * What a person lacks, in words, to open this circuit on this day (YYYY-MM-DD at the site); empty when nothing is missing on paper.
 * Certificates in date only. Holding one is the person's duty to keep and the employer's to check; this only reminds.
 * @source 40 CFR 82.161: Type I small appliances, Type II medium to very high pressure, Type III low pressure, Universal all (read,
 *   secondary). Implementing Regulation (EU) 2024/2215: categories A1 to E (title and table head read): A1 fluorinated gases and
 *   hydrocarbons, A2 the same in small charges, B carbon dioxide, C ammonia (from memory)
 */
export function listMissingCertificates(demand: CircuitDemand, held: readonly Certificate[], day: string): string[] {
  const valid = new Set(held.filter((each) => isInDate(each, day)).map((each) => each.kind));
  const missing: string[] = [];
  const anyOf = listAcceptedCertificates(demand);
  if (!anyOf.some((kind) => valid.has(kind))) missing.push(orWords(anyOf));
  if (demand.flammable && !valid.has("flammables")) missing.push(FLAMMABLES_COMPETENCE);
  return missing;
}

export const FLAMMABLES_COMPETENCE = "competence for flammable refrigerants";

export function isInDate({ expiresOn }: Certificate, day: string): boolean {
  return expiresOn === null || expiresOn.toISOString().slice(0, 10) >= day;
}

/** "Type II or Universal". */
export function orWords(kinds: readonly string[]): string {
  return kinds.map((kind) => certificateName[kind] ?? kind).join(" or ");
}

function usTypes(demand: CircuitDemand): readonly string[] {
  if (demand.smallAppliance) return ["us-type-1", "us-universal"];
  if (demand.pressureClass === "low") return ["us-type-3", "us-universal"];
  if (demand.pressureClass === null) return ["us-universal"];
  return ["us-type-2", "us-universal"];
}

function euCategories({ family, chargeKg, smallAppliance }: CircuitDemand): readonly string[] {
  if (family === "ammonia") return ["eu-c"];
  if (family === "carbon-dioxide") return ["eu-b"];
  const isSmall = chargeKg !== null && chargeKg < (smallAppliance ? A2_SEALED_BELOW_KG : A2_BELOW_KG);
  return isSmall ? ["eu-a1", "eu-a2"] : ["eu-a1"];
}

export const certificateName: Readonly<Record<string, string>> = {
  "us-type-1": "Type I",
  "us-type-2": "Type II",
  "us-type-3": "Type III",
  "us-universal": "Universal",
  "eu-a1": "EU category A1",
  "eu-a2": "EU category A2",
  "eu-b": "EU category B",
  "eu-c": "EU category C",
  "eu-d": "EU category D",
  "eu-e": "EU category E",
  flammables: "Flammables",
};
