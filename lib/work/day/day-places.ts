import type { Coordinates } from "@/lib/dispatch";
import type { DayRecords, PersonRecord, VisitRecord } from "./day-records";

/** The places of a day, each once; null where nobody has put the place on the map. */
export interface DayPlaces {
  readonly at: readonly (Coordinates | null)[];
  ofSite(visit: VisitRecord): number;
  ofBase(person: PersonRecord): number;
}

export function listPlaces({ people, visits, yard }: Pick<DayRecords, "people" | "visits" | "yard">): DayPlaces {
  const at: (Coordinates | null)[] = [];
  const numberOf = new Map<string, number>();
  const place = (key: string, coordinates: Coordinates | null) => {
    if (numberOf.has(key)) return;
    numberOf.set(key, at.length);
    at.push(coordinates);
  };
  for (const person of people) place(baseKey(person), person.base ?? yard);
  for (const visit of visits) place(siteKey(visit), visit.at);
  return {
    at,
    ofSite: (visit) => numberOf.get(siteKey(visit))!,
    ofBase: (person) => numberOf.get(baseKey(person))!,
  };
}

const siteKey = ({ siteId }: VisitRecord) => `site ${siteId}`;
const baseKey = ({ personId, base }: PersonRecord) => (base === null ? "yard" : `base ${personId}`);
