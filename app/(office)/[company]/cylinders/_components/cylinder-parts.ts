import type { Values } from "@/components/registry/register-field";
import type { FormPart } from "@/components/registry/register-form";
import { choicesOf, cylinderContentsWord } from "@/components/registry/words";
import type { findCylinder } from "@/lib/db/cylinders";
import { fromKg, listRefrigerants } from "@/lib/hvac";
import type { UnitSystem } from "@/lib/registry/company";

export const massUnitOf = (system: UnitSystem) => (system === "us" ? "lb" : "kg");

export function cylinderFormParts(
  system: UnitSystem,
  people: readonly { personId: string; name: string }[],
): readonly FormPart[] {
  const unit = massUnitOf(system);
  return [
    {
      fields: [
        { name: "label", label: "Number or mark", kind: "text" },
        {
          name: "heldBy",
          label: "Held by",
          kind: "select",
          emptyChoice: "Nobody",
          choices: people.map(({ personId, name }) => ({ value: personId, label: name })),
        },
      ],
    },
    {
      title: "Stamped on the collar",
      fields: [
        { name: "waterCapacity", label: "Water capacity (WC)", kind: "number", unit },
        { name: "tare", label: "Tare (TW)", kind: "number", unit },
        { name: "requalifyBy", label: "Requalify by", kind: "date", optional: true, hint: "Not filled past this day." },
        { name: "refillable", label: "May be refilled", kind: "tick" },
        { name: "forFlammables", label: "Marked for flammables", kind: "tick" },
      ],
    },
    {
      title: "What is in it",
      lead: "One cylinder, one refrigerant.",
      fields: [
        { name: "contents", label: "Contents", kind: "select", choices: choicesOf(cylinderContentsWord) },
        {
          name: "refrigerant",
          label: "Refrigerant",
          kind: "text",
          suggestions: listRefrigerants().map(({ name }) => name),
          when: { field: "contents", is: ["new", "recovered", "reclaimed", "empty"] },
          hint: "Of an empty one: what it last held, or nothing.",
        },
        { name: "contentsMass", label: "Mass of refrigerant", kind: "number", unit },
      ],
    },
  ];
}

export function cylinderValues(
  cylinder: NonNullable<Awaited<ReturnType<typeof findCylinder>>>,
  system: UnitSystem,
): Values {
  const mass = (kg: number) => String(Number(fromKg(kg, massUnitOf(system)).toPrecision(7)));
  return {
    label: cylinder.label,
    contents: cylinder.contents,
    refrigerant: cylinder.refrigerant ?? "",
    waterCapacity: mass(cylinder.waterCapacityKg),
    tare: mass(cylinder.tareKg),
    contentsMass: mass(cylinder.contentsKg),
    requalifyBy: cylinder.requalifyBy ?? "",
    forFlammables: cylinder.forFlammables ? "on" : "",
    refillable: cylinder.refillable ? "on" : "",
    heldBy: cylinder.heldBy ?? "",
  };
}
