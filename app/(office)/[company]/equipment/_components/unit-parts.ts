import type { FormPart } from "@/components/registry/register-form";
import { applianceKindWord, choicesOf } from "@/components/registry/words";

export const unitParts: readonly FormPart[] = [
  {
    fields: [
      { name: "name", label: "Name", kind: "text", hint: "What people call it: RTU-3, walk-in cooler." },
      { name: "place", label: "Place", kind: "text", optional: true, hint: "Roof north, cellar, plant room 2." },
      {
        name: "applianceKind",
        label: "Kind of appliance",
        kind: "select",
        choices: choicesOf(applianceKindWord),
        hint: "Leak-repair duties and recovery levels follow from it.",
        wide: true,
      },
    ],
  },
  {
    title: "Nameplate",
    lead: "As it is printed; nothing is looked up.",
    fields: [
      { name: "maker", label: "Maker", kind: "text", optional: true },
      { name: "model", label: "Model", kind: "text", optional: true },
      { name: "serial", label: "Serial", kind: "text", optional: true },
      { name: "yearMade", label: "Year made", kind: "number", unit: "", optional: true },
    ],
  },
];
