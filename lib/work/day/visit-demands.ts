import { circuitDemandOf, FLAMMABLES_COMPETENCE, isInDate, listAcceptedCertificates, orWords } from "../qualification";
import type { PersonRecord, ToolRecord, VisitCircuit } from "./day-records";

export type LackKind = "certificate" | "competence" | "tool" | "tool-out-of-date";

/** What a person lacks for a visit, in words that go after a name: "holds no Type II or Universal". */
export interface Lack {
  readonly kind: LackKind;
  readonly words: string;
}

/** Something a visit asks of whoever comes, in the words a dispatcher is told it in. */
export interface Demand {
  readonly words: string;
  /** Nothing where this person with these tools on the van meets it. */
  lackOf(person: Pick<PersonRecord, "certificates">, tools: readonly ToolRecord[]): Lack | null;
}

const toolWords = {
  "recovery-machine": "recovery machine",
  pump: "vacuum pump",
  "vacuum-gauge": "vacuum gauge",
  "pressure-gauge": "pressure gauge",
  scale: "scale",
} as const;
type NeededTool = keyof typeof toolWords;

const RATED: readonly NeededTool[] = ["recovery-machine", "pump"];
export const NEEDED_TOOLS = Object.keys(toolWords) as readonly NeededTool[];

/**
 * What opening this circuit asks for: certificates, competence for flammables, and tools of the right class in date.
 * Tools of a kind that nobody is on record to hold are not asked for: that register is not kept.
 * @source which tools the work takes: common practice
 */
export function listDemands(
  circuit: VisitCircuit,
  ruleSet: "us" | "eu",
  day: string,
  heldKinds: ReadonlySet<string>,
): readonly Demand[] {
  if (circuit.kind === "component_swap_not_opened") return [];
  const demand = circuitDemandOf(circuit, ruleSet);
  const accepted = listAcceptedCertificates(demand);
  const demands: Demand[] = [holdsOneOf(accepted, orWords(accepted), "certificate", day)];
  if (demand.flammable) demands.push(holdsOneOf(["flammables"], FLAMMABLES_COMPETENCE, "competence", day));
  for (const kind of NEEDED_TOOLS) {
    if (!heldKinds.has(kind) || (kind === "recovery-machine" && circuit.kind === "new_install_precharged")) continue;
    demands.push(hasTool(kind, demand.flammable, circuit.safetyClass, day));
  }
  return demands;
}

function holdsOneOf(kinds: readonly string[], words: string, kind: LackKind, day: string): Demand {
  return {
    words,
    lackOf: ({ certificates }) => {
      const held = certificates.filter((each) => kinds.includes(each.kind));
      if (held.some((each) => isInDate(each, day))) return null;
      return { kind, words: held.length > 0 ? `holds ${words} no longer in date` : `holds no ${words}` };
    },
  };
}

function hasTool(kind: NeededTool, flammable: boolean, safetyClass: string | null, day: string): Demand {
  const rated = flammable && RATED.includes(kind);
  const ofClass = rated ? `${safetyClass ?? "flammables"} ` : "";
  const article = rated && ofClass.startsWith("A") ? "an" : "a";
  const inDate = RATED.includes(kind) ? "" : " in calibration";
  return {
    words: `${article} ${ofClass}${toolWords[kind]}${inDate}`,
    lackOf: (_person, tools) => {
      const held = tools.filter((tool) => tool.kind === kind && (!rated || isRatedFor(tool, safetyClass)));
      if (held.some((tool) => isSound(tool) && (dueOn(tool) ?? day) >= day)) return null;
      if (held.length === 0) return { kind: "tool", words: `carries no ${ofClass}${toolWords[kind]}` };
      const last =
        held
          .filter(isSound)
          .map((tool) => dueOn(tool)!)
          .sort()
          .at(-1) ?? "";
      const what = last === "" ? "in doubt since its last check" : `that was due for its check on ${last}`;
      return { kind: "tool-out-of-date", words: `carries a ${toolWords[kind]} ${what}` };
    },
  };
}

const isSound = ({ doubtedOn }: ToolRecord) => !doubtedOn;

/** The last day on which calibration and check both hold; null where neither ends. */
function dueOn({ calibrationDueOn, checkDueOn }: ToolRecord): string | null {
  const days = [calibrationDueOn, checkDueOn].flatMap((due) => due?.toISOString().slice(0, 10) ?? []);
  return days.length === 0 ? null : days.sort()[0]!;
}

/** What nobody has identified asks for a machine made for some flammable class. */
function isRatedFor({ ratedFor }: ToolRecord, safetyClass: string | null): boolean {
  return safetyClass === null
    ? ratedFor.some((each) => each !== "A1" && each !== "B1")
    : ratedFor.includes(safetyClass);
}
