import type { Values } from "@/components/registry/register-field";
import type { FormPart } from "@/components/registry/register-form";
import { choicesOf, toolKindWord } from "@/components/registry/words";
import type { findTool } from "@/lib/db/tools";
import { RESOLUTION_UNITS, SAFETY_CLASSES, toolParts } from "@/lib/registry/tool";

const only = (part: keyof typeof toolParts) => ({ field: "kind", is: toolParts[part] });
const same = (text: string) => ({ value: text, label: text });

/** What is asked of a tool; each kind is asked only what it has. */
export function toolFormParts(people: readonly { personId: string; name: string }[]): readonly FormPart[] {
  return [
    {
      fields: [
        { name: "kind", label: "Kind", kind: "select", choices: choicesOf(toolKindWord) },
        { name: "name", label: "Name", kind: "text", hint: "What it is called in the van." },
        { name: "serial", label: "Serial", kind: "text", optional: true },
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
      title: "Calibration",
      lead: "A reading is evidence only while the instrument is in date.",
      fields: [
        { name: "calibratedOn", label: "Calibrated on", kind: "date", optional: true, when: only("calibration") },
        { name: "calibrationDueOn", label: "Due by", kind: "date", optional: true, when: only("calibration") },
        {
          name: "accuracyPercent",
          label: "Accuracy of the reading",
          kind: "number",
          unit: "%",
          optional: true,
          when: only("calibration"),
        },
        {
          name: "resolution",
          label: "Smallest step",
          kind: "number",
          unit: "",
          optional: true,
          when: only("resolution"),
        },
        {
          name: "resolutionUnit",
          label: "Unit of that step",
          kind: "select",
          emptyChoice: "Not given",
          choices: RESOLUTION_UNITS.map(same),
          when: only("resolution"),
        },
      ],
    },
    {
      title: "Pump",
      fields: [
        {
          name: "litresPerSecond",
          label: "Pumping speed",
          kind: "number",
          unit: "L/s",
          optional: true,
          when: only("pump"),
        },
        {
          name: "ultimateMicron",
          label: "Ultimate vacuum",
          kind: "number",
          unit: "micron",
          optional: true,
          when: only("pump"),
        },
        { name: "oilChangedOn", label: "Oil changed on", kind: "date", optional: true, when: only("pump") },
        {
          name: "oilRunHours",
          label: "Hours run since then",
          kind: "number",
          unit: "h",
          optional: true,
          when: only("pump"),
          hint: "Changed after 10 h at the latest (common practice).",
        },
      ],
    },
    {
      title: "Recovery machine",
      fields: [
        {
          name: "madeOn",
          label: "Made on",
          kind: "date",
          optional: true,
          when: only("madeOn"),
          hint: "Before 15 November 1993 another column of the recovery table holds (40 CFR 82.156).",
        },
      ],
    },
    {
      title: "Refrigerants it may be used with",
      fields: [
        {
          name: "ratedFor",
          label: "Safety classes",
          kind: "ticks",
          choices: SAFETY_CLASSES.map(same),
          when: only("ratedFor"),
          hint: "By its maker's instruction. Flammable refrigerants need tools made for them.",
        },
      ],
    },
  ];
}

export function toolValues(tool: NonNullable<Awaited<ReturnType<typeof findTool>>>): Values {
  const number = (value: number | null) => (value === null ? "" : String(value));
  return {
    kind: tool.kind,
    name: tool.name,
    serial: tool.serial,
    heldBy: tool.heldBy ?? "",
    calibratedOn: tool.calibratedOn ?? "",
    calibrationDueOn: tool.calibrationDueOn ?? "",
    madeOn: tool.madeOn ?? "",
    ratedFor: tool.ratedFor,
    resolution: number(tool.resolution),
    resolutionUnit: tool.resolutionUnit ?? "",
    accuracyPercent: number(tool.accuracyPercent),
    litresPerSecond: number(tool.litresPerSecond),
    ultimateMicron: number(tool.ultimateMicron),
    oilChangedOn: tool.oilChangedOn ?? "",
    oilRunHours: number(tool.oilRunHours),
  };
}
