import type { Values } from "@/components/registry/register-field";
import type { FormPart } from "@/components/registry/register-form";
import type { CircuitDutyFacts } from "@/lib/db/refrigerant/circuit-facts";
import { fromKg, toKg } from "@/lib/hvac";
import { toGrams } from "@/lib/ledger";
import { eventWords, testedEvents } from "@/lib/work/refrigerant-words";

type RuleSet = "us" | "eu";

const eventsOf: Record<RuleSet, readonly string[]> = {
  us: [
    "repair",
    "initial-verification",
    "follow-up-verification",
    "normal-operation",
    "leak-inspection",
    "detection-fitted",
    "retrofit-plan",
    "retrofit-done",
    "chronic-report",
    "seasonal-return",
    "records-given",
  ],
  eu: ["leak-check", "repair", "recheck", "detection-fitted", "detection-check", "records-given"],
};

const note = { name: "note", label: "Note", kind: "area", optional: true } as const;
const SEASON_HINT =
  "On the day it was added. It is left out of the leak rate up to what was recovered in the twelve months before (40 CFR 82.157(b); the definition from memory).";

/** What can be recorded about a circuit under each rule set. */
export function eventParts(ruleSet: RuleSet): readonly FormPart[] {
  const tested = { when: { field: "kind", is: testedEvents } } as const;
  const choices = eventsOf[ruleSet].map((kind) => ({ value: kind, label: eventWords[kind] ?? kind }));
  return [
    {
      fields: [
        { name: "kind", label: "What", kind: "select", choices },
        { name: "on", label: "Day", kind: "date" },
        {
          name: "result",
          label: "Result",
          kind: "select",
          emptyChoice: "Choose",
          choices: [
            { value: "passed", label: "Passed: no leak found" },
            { value: "failed", label: "Failed: it leaks" },
          ],
          ...tested,
        },
        { name: "method", label: "Method and instrument", kind: "text", optional: true, ...tested },
        { name: "doneBy", label: "Done by", kind: "text" },
        { name: "certificate", label: "Certificate", kind: "text", optional: true },
        { ...note, when: { field: "kind", is: eventsOf[ruleSet].filter((kind) => kind !== "seasonal-return") } },
        { ...note, hint: SEASON_HINT, when: { field: "kind", is: ["seasonal-return"] } },
      ],
    },
  ];
}

/** What the rules ask about a circuit and the register does not hold; each rule set is asked only what it needs. */
export function factParts(ruleSet: RuleSet, unit: string): readonly FormPart[] {
  return [
    {
      fields: [
        {
          name: "fullCharge",
          label: "Full charge",
          kind: "number",
          unit,
          optional: true,
          hint: "As it runs, lines included. Every leak rate is a share of it.",
        },
        {
          name: "fullChargeMethod",
          label: "Known how",
          kind: "select",
          choices: [
            { value: "maker", label: "The maker says so" },
            { value: "calculated", label: "Calculated from its parts" },
            { value: "measured", label: "Weighed" },
            { value: "range", label: "The middle of a known range" },
          ],
        },
        { name: "installedOn", label: "Installed on", kind: "date", optional: true },
        ...(ruleSet === "us"
          ? ([
              {
                name: "lightCommercial",
                label: "Residential or light commercial",
                kind: "select",
                optional: true,
                emptyChoice: "Judged by its use and charge",
                choices: [
                  { value: "yes", label: "Yes" },
                  { value: "no", label: "No" },
                ],
                hint: "Such air conditioning is outside Part 84. Unsaid: comfort cooling under 50 lb is taken to be (our own choice).",
              },
              {
                name: "processShutdown",
                label: "A process must be shut down for its repair",
                kind: "tick",
                hint: "Then 120 days for the repair instead of 30 (40 CFR 82.157(d)).",
              },
            ] as const)
          : ([
              {
                name: "hermeticLabelled",
                label: "Hermetically sealed, and its label says so",
                kind: "tick",
              },
            ] as const)),
        { name: "detectionSystem", label: "A leak detection system is fitted", kind: "tick" },
      ],
    },
  ];
}

export function factValues(facts: CircuitDutyFacts, unit: "lb" | "kg"): Values {
  const { fullChargeGrams: grams, lightCommercial } = facts;
  return {
    fullCharge: grams === null ? "" : massAsTyped(grams, unit),
    fullChargeMethod: facts.fullChargeMethod,
    installedOn: facts.installedOn ?? "",
    lightCommercial: lightCommercial === null ? "" : lightCommercial ? "yes" : "no",
    processShutdown: facts.processShutdown ? "on" : "",
    detectionSystem: facts.detectionSystem ? "on" : "",
    hermeticLabelled: facts.hermeticLabelled ? "on" : "",
  };
}

/** The shortest number that is read back as these grams: 21.5 lb stays 21.5. */
function massAsTyped(grams: number, unit: "lb" | "kg"): string {
  const mass = unit === "lb" ? fromKg(grams / 1000, "lb") : grams / 1000;
  const short = [0, 1, 2]
    .map((digits) => mass.toFixed(digits))
    .find((text) => toGrams(toKg(Number(text), unit)) === grams);
  return short ?? mass.toFixed(3);
}

export const givenUpParts: readonly FormPart[] = [
  {
    fields: [
      { name: "on", label: "Day", kind: "date" },
      { name: "party", label: "Who takes it", kind: "text", hint: "The final processor, by name and place." },
      { name: "number", label: "Receipt or contract", kind: "text", optional: true },
      { name: "note", label: "Note", kind: "area", optional: true },
    ],
  },
];
