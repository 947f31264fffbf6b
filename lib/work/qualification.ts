export interface Certificate {
  kind: string;
  expiresOn: Date | null;
}

export interface CircuitDemand {
  ruleSet: "us" | "eu";
  pressureClass: "low" | "medium" | "high" | "very-high" | null;
  smallAppliance: boolean;
  flammable: boolean;
}

/**
 * What a person lacks, in words, to open this circuit on this day (YYYY-MM-DD at the site); empty when nothing is missing on paper.
 * Certificates in date only. Holding one is the person's duty to keep and the employer's to check; this only reminds.
 * @source 40 CFR 82.161: Type I small appliances, Type II medium to very high pressure, Type III low pressure, Universal all (read,
 *   secondary). Implementing Regulation (EU) 2024/2215: categories A1 to E (title and table head read; A1 or A2 for opening, from memory).
 */
export function listMissingCertificates(demand: CircuitDemand, held: readonly Certificate[], day: string): string[] {
  const valid = new Set(
    held
      .filter((each) => each.expiresOn === null || each.expiresOn.toISOString().slice(0, 10) >= day)
      .map((each) => each.kind),
  );
  const missing: string[] = [];
  const anyOf = demand.ruleSet === "us" ? usTypes(demand) : ["eu-a1", "eu-a2"];
  if (!anyOf.some((kind) => valid.has(kind))) missing.push(anyOf.map((kind) => certificateName[kind]).join(" or "));
  if (demand.flammable && !valid.has("flammables")) missing.push("competence for flammable refrigerants");
  return missing;
}

function usTypes(demand: CircuitDemand): string[] {
  if (demand.smallAppliance) return ["us-type-1", "us-universal"];
  if (demand.pressureClass === "low") return ["us-type-3", "us-universal"];
  if (demand.pressureClass === null) return ["us-universal"];
  return ["us-type-2", "us-universal"];
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
