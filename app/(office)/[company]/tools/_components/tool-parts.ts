import type { Values } from "@/components/registry/register-field";
import type { FormPart } from "@/components/registry/register-form";
import { choicesOf, toolKindWord } from "@/components/registry/words";
import type { findTool } from "@/lib/db/tools";
import { RESOLUTION_UNITS, SAFETY_CLASSES, type ToolKind, toolParts } from "@/lib/registry/tool";
import { eventsOf, type ToolEventKind } from "@/lib/registry/tool-event";
import { shownHours } from "@/lib/registry/tool-shown";

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
          hint: "Changed after 10 h at the latest (common practice). The logs of jobs add to it.",
        },
      ],
    },
    {
      title: "Looked at from time to time",
      lead: "Hoses and their seals, a machine's filters and valves, by the maker's or your own interval.",
      fields: [{ name: "checkDueOn", label: "Next look due by", kind: "date", optional: true, when: only("check") }],
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

export const toolEventWord: Record<ToolEventKind, string> = {
  "oil-changed": "Oil changed",
  "blank-off": "Blanked off and tested",
  calibrated: "Calibrated",
  checked: "Looked at",
  compared: "Compared with another one",
};

const after = (...is: readonly ToolEventKind[]) => ({ field: "what", is });

/** What is asked when something is written down about a tool. */
export function toolEventParts(
  tool: { readonly kind: ToolKind; readonly resolutionUnit: string | null },
  others: readonly { readonly id: string; readonly name: string }[],
  jobs: readonly { readonly id: string; readonly words: string }[],
): readonly FormPart[] {
  const unit = tool.resolutionUnit ?? "";
  const compared = { when: after("compared") } as const;
  return [
    {
      fields: [
        {
          name: "what",
          label: "What was done",
          kind: "select",
          choices: eventsOf(tool.kind).map((event) => ({ value: event, label: toolEventWord[event] })),
        },
        { name: "onDay", label: "On", kind: "date" },
        { name: "micron", label: "Lowest reached alone", kind: "number", unit: "micron", when: after("blank-off") },
        { name: "dueOn", label: "Due again by", kind: "date", optional: true, when: after("calibrated", "checked") },
        {
          name: "result",
          label: "Found",
          kind: "select",
          choices: [
            { value: "good", label: "Good" },
            { value: "bad", label: "Not good: it must not be used" },
          ],
          when: after("calibrated", "checked"),
        },
        {
          name: "otherToolId",
          label: "With",
          kind: "select",
          emptyChoice: "Choose",
          hint: "On the same place at the same time.",
          choices: others.map(({ id, name }) => ({ value: id, label: name })),
          ...compared,
        },
        { name: "reading", label: "This one showed", kind: "number", unit, ...compared },
        { name: "otherReading", label: "The other one showed", kind: "number", unit, ...compared },
        {
          name: "jobId",
          label: "On job",
          kind: "select",
          optional: true,
          emptyChoice: "In the shop",
          choices: jobs.map(({ id, words }) => ({ value: id, label: words })),
          ...compared,
        },
        { name: "note", label: "Note", kind: "text", optional: true },
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
    oilRunHours: number(shownHours(tool.oilRunHours)),
    checkDueOn: tool.checkDueOn ?? "",
  };
}
