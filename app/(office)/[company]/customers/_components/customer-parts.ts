import type { FormPart } from "@/components/registry/register-form";

export const customerParts: readonly FormPart[] = [
  {
    fields: [
      { name: "name", label: "Name", kind: "text", wide: true },
      { name: "phone", label: "Phone", kind: "phone", optional: true },
      { name: "email", label: "E-mail", kind: "email", optional: true },
      {
        name: "mayWrite",
        label: "Agreed to be written to about visits",
        kind: "tick",
        hint: "The promised time, when somebody is on the way, and changes.",
      },
      { name: "note", label: "Note", kind: "area", optional: true },
    ],
  },
];

export const siteParts = (timeZones: readonly string[]): readonly FormPart[] => [
  {
    fields: [
      { name: "name", label: "Name of the site", kind: "text", hint: "What people call it: Home, North store." },
      {
        name: "timeZone",
        label: "Time zone",
        kind: "text",
        suggestions: timeZones,
        hint: "Its clock: America/Denver.",
      },
      { name: "street", label: "Street and number", kind: "text", optional: true, wide: true },
      { name: "postalCode", label: "Postal code", kind: "text", optional: true },
      { name: "city", label: "City", kind: "text", optional: true },
      { name: "region", label: "State or region", kind: "text", optional: true },
      { name: "country", label: "Country", kind: "text", optional: true },
      {
        name: "accessNote",
        label: "How to get in",
        kind: "area",
        optional: true,
        hint: "Gate code, roof ladder, dog.",
      },
    ],
  },
  {
    title: "Position",
    lead: "For travel times. Degrees, west and south negative; both or neither.",
    fields: [
      { name: "latitude", label: "Latitude", kind: "number", unit: "°", optional: true },
      { name: "longitude", label: "Longitude", kind: "number", unit: "°", optional: true },
    ],
  },
];
