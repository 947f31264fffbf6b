import type { DispatchJob, DispatchPlan, Technician, TimeWindow } from "./problem";

/** What a visit for two people asks for, and only a crew of two can do. */
export const TWO_PEOPLE = "two people";
/** What a call outside hours asks for, and only the person on call offers. */
export const ON_CALL = "on call";

export interface Person extends Technician {
  /** An apprentice never drives alone. */
  readonly isApprentice?: boolean;
}

export interface UnpairedPerson {
  readonly person: string;
  readonly reason: "apprentice-without-company" | "partner-not-at-work" | "partner-not-qualified";
}

/**
 * The technicians of a day from the people at work and who rides with whom. A pair travels as one: the qualified
 * person's certificates, van and limits, the hours that both are there, and `TWO_PEOPLE` on top. An apprentice brings
 * no certificate of their own, and one without company is left out and named.
 */
export function formCrews(
  people: readonly Person[],
  pairs: readonly { readonly lead: string; readonly second: string }[],
): { readonly technicians: readonly Technician[]; readonly left: readonly UnpairedPerson[] } {
  const byId = new Map(people.map((person) => [person.id, person]));
  const left: UnpairedPerson[] = [];
  const secondOf = new Map<string, Person>();
  const riding = new Set<string>();
  for (const { lead, second } of pairs) {
    const [first, other] = [byId.get(lead), byId.get(second)];
    if (other === undefined) continue;
    if (first === undefined || first.isApprentice) {
      if (other.isApprentice)
        left.push({ person: second, reason: first === undefined ? "partner-not-at-work" : "partner-not-qualified" });
      continue;
    }
    if (lead === second || secondOf.has(lead) || riding.has(lead) || riding.has(second) || secondOf.has(second))
      continue;
    secondOf.set(lead, other);
    riding.add(second);
  }
  const technicians = people.flatMap((person) => {
    if (riding.has(person.id)) return [];
    const named = left.some((one) => one.person === person.id);
    if (person.isApprentice && !named) left.push({ person: person.id, reason: "apprentice-without-company" });
    return person.isApprentice ? [] : [crewOf(person, secondOf.get(person.id))];
  });
  return { technicians, left };
}

function crewOf({ isApprentice: _, ...lead }: Person, second: Person | undefined): Technician {
  if (second === undefined) return lead;
  const finish = Math.min(lead.shift[1] + (lead.maxOvertime ?? 0), second.shift[1] + (second.maxOvertime ?? 0));
  const shiftEnd = Math.min(lead.shift[1], second.shift[1]);
  return {
    ...lead,
    skills: [...new Set([...lead.skills, ...(second.isApprentice ? [] : second.skills), TWO_PEOPLE])],
    shift: [Math.max(lead.shift[0], second.shift[0]), shiftEnd],
    maxOvertime: Math.max(0, finish - shiftEnd),
    ...(second.from === undefined
      ? {}
      : {
          from: { location: lead.from?.location ?? lead.start, time: Math.max(second.from.time, lead.from?.time ?? 0) },
        }),
  };
}

/** The day with one person on call: their time runs on to this hour, past their own hours at overtime's cost. */
export function andOnCall(technicians: readonly Technician[], person: string, untilS: number): readonly Technician[] {
  return technicians.map((technician) =>
    technician.id === person
      ? {
          ...technician,
          skills: [...technician.skills, ON_CALL],
          maxOvertime: Math.max(technician.maxOvertime ?? 0, untilS - technician.shift[1]),
        }
      : technician,
  );
}

/**
 * The visit that comes back with ordered parts: not before they are there, by preference with whoever was there first,
 * and without asking the van for parts that are brought along.
 */
export function planReturnVisit(
  first: DispatchJob,
  plan: DispatchPlan,
  parts: { readonly id: string; readonly arriveAtS: number; readonly durationS: number; readonly closesAtS: number },
): DispatchJob {
  const visitor = plan.routes.find(({ stops }) => stops.some((stop) => "job" in stop && stop.job === first.id));
  const {
    promised: _promised,
    lockedStart: _start,
    releasedAt: _released,
    due: _due,
    parts: _parts,
    ...lasting
  } = first;
  const windows = (first.windows ?? [[parts.arriveAtS, parts.closesAtS] as const]).flatMap(
    ([from, to]): TimeWindow[] => {
      const window: TimeWindow = [Math.max(from, parts.arriveAtS), Math.min(to, parts.closesAtS)];
      return window[0] <= window[1] ? [window] : [];
    },
  );
  return {
    ...lasting,
    id: parts.id,
    duration: parts.durationS,
    windows,
    ...(visitor === undefined ? {} : { preferredTechnicians: [visitor.technician] }),
  };
}
