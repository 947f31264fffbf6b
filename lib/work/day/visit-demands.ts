import { circuitDemandOf, FLAMMABLES_COMPETENCE, isInDate, listAcceptedCertificates, orWords } from "../qualification";
import type { PersonRecord, ToolRecord, VisitCircuit } from "./day-records";

/** Something a visit asks of whoever comes, in the words a dispatcher is told it in. */
export interface Demand {
  readonly words: string;
  isMetBy(person: Pick<PersonRecord, "certificates">, tools: readonly ToolRecord[]): boolean;
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
  const demands: Demand[] = [holdsOneOf(accepted, orWords(accepted), day)];
  if (demand.flammable) demands.push(holdsOneOf(["flammables"], FLAMMABLES_COMPETENCE, day));
  for (const kind of NEEDED_TOOLS) {
    if (!heldKinds.has(kind) || (kind === "recovery-machine" && circuit.kind === "new_install_precharged")) continue;
    demands.push(hasTool(kind, demand.flammable, circuit.safetyClass, day));
  }
  return demands;
}

function holdsOneOf(kinds: readonly string[], words: string, day: string): Demand {
  return {
    words,
    isMetBy: ({ certificates }) => certificates.some((each) => kinds.includes(each.kind) && isInDate(each, day)),
  };
}

function hasTool(kind: NeededTool, flammable: boolean, safetyClass: string | null, day: string): Demand {
  const rated = flammable && RATED.includes(kind);
  const ofClass = rated ? `${safetyClass ?? "flammables"} ` : "";
  const article = rated && ofClass.startsWith("A") ? "an" : "a";
  const inDate = RATED.includes(kind) ? "" : " in calibration";
  return {
    words: `${article} ${ofClass}${toolWords[kind]}${inDate}`,
    isMetBy: (_person, tools) =>
      tools.some(
        (tool) =>
          tool.kind === kind &&
          isStillGood(tool.calibrationDueOn, day) &&
          isStillGood(tool.checkDueOn ?? null, day) &&
          !tool.doubtedOn &&
          (!rated || isRatedFor(tool, safetyClass)),
      ),
  };
}

function isStillGood(lastDay: Date | null, day: string): boolean {
  return lastDay === null || lastDay.toISOString().slice(0, 10) >= day;
}

/** What nobody has identified asks for a machine made for some flammable class. */
function isRatedFor({ ratedFor }: ToolRecord, safetyClass: string | null): boolean {
  return safetyClass === null
    ? ratedFor.some((each) => each !== "A1" && each !== "B1")
    : ratedFor.includes(safetyClass);
}
