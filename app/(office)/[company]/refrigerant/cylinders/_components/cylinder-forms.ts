import type { FormPart } from "@/components/registry/register-form";
import { listRefrigerants } from "@/lib/hvac";

/** What is asked to promise room or stock, to book what happened and to hand a cylinder over. */
export function formParts(of: {
  unit: string;
  choices: readonly { value: string; label: string }[];
  people: readonly { personId: string; name: string }[];
  customers: readonly { id: string; name: string }[];
}): Record<"promise" | "book" | "give", readonly FormPart[]> {
  const cylinder = { name: "cylinderId", label: "Cylinder", kind: "select", choices: of.choices } as const;
  const refrigerant = {
    name: "refrigerant",
    label: "Refrigerant",
    kind: "text",
    suggestions: [...listRefrigerants().map(({ name }) => name), "mixed"],
  } as const;
  const mass = { name: "mass", label: "Mass", kind: "number", unit: of.unit } as const;
  const moved = [refrigerant, mass] as const;
  const outside = { field: "kind", is: ["purchase", "return", "shipment", "reclaimed", "destruction"] } as const;
  return {
    promise: [
      {
        fields: [
          cylinder,
          {
            name: "direction",
            label: "What for",
            kind: "select",
            choices: [
              { value: "in", label: "Room to recover into" },
              { value: "out", label: "Stock to charge from" },
            ],
          },
          ...moved,
          {
            name: "customerId",
            label: "For which customer",
            kind: "select",
            emptyChoice: "Nobody yet, new refrigerant",
            choices: of.customers.map(({ id, name }) => ({ value: id, label: name })),
          },
          { name: "untilDay", label: "Until", kind: "date" },
          { name: "purpose", label: "Note", kind: "text", optional: true },
        ],
      },
    ],
    book: [
      {
        fields: [
          {
            name: "kind",
            label: "What happened",
            kind: "select",
            choices: [
              { value: "purchase", label: "Bought" },
              { value: "return", label: "Returned to the supplier" },
              { value: "shipment", label: "Shipped to a reclaimer" },
              { value: "reclaimed", label: "Came back reclaimed" },
              { value: "destruction", label: "Sent to destruction" },
              { value: "decant", label: "Decanted into another cylinder" },
              { value: "settled", label: "A cylinder nobody named was this one" },
            ],
          },
          cylinder,
          {
            name: "toCylinderId",
            label: "Into which cylinder",
            kind: "select",
            emptyChoice: "Choose",
            choices: of.choices,
            when: { field: "kind", is: ["decant"] },
          },
          ...moved,
          { name: "on", label: "Day", kind: "date" },
          {
            name: "party",
            label: "With whom",
            kind: "text",
            optional: true,
            hint: "Supplier, reclaimer or final processor.",
            when: outside,
          },
          { name: "number", label: "Invoice, manifest or certificate", kind: "text", optional: true, when: outside },
          { name: "note", label: "Note", kind: "area", optional: true },
        ],
      },
    ],
    give: [
      {
        fields: [
          cylinder,
          {
            name: "toPerson",
            label: "To",
            kind: "select",
            emptyChoice: "The shop",
            choices: of.people.map(({ personId, name }) => ({ value: personId, label: `${name}'s van` })),
          },
        ],
      },
    ],
  };
}
