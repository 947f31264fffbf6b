/** A visit's step as it was noted: who took it, when. */
export interface VisitStep {
  readonly to: string;
  readonly at: Date;
}
export interface BilledVisit {
  readonly people: readonly string[];
  readonly steps: readonly VisitStep[];
}
export interface BilledPart {
  readonly jobNumber: number;
  readonly on: string;
  readonly name: string;
  readonly serial: string | null;
}
export interface BilledMass {
  readonly jobNumber: number;
  readonly on: string;
  readonly what: "recovered" | "charged";
  readonly refrigerant: string | null;
  readonly massKg: number;
  readonly cylinder: string;
}

/** One line for whoever writes the bill. What is not known is left empty, never guessed. */
export interface OrderLine {
  readonly kind: "labour" | "part" | "refrigerant";
  /** Day at the site. */
  readonly on: string;
  readonly job: string;
  readonly what: string;
  readonly quantity: string;
  readonly unit: string;
  readonly detail: string;
}

/** Labour, parts and refrigerant of one work order, in this order. */
export function listOrderLines(order: {
  readonly visits: readonly BilledVisit[];
  readonly parts: readonly BilledPart[];
  readonly masses: readonly BilledMass[];
  readonly dayOf: (at: Date) => string;
}): OrderLine[] {
  return [
    ...order.visits.flatMap((visit) => labourLines(visit, order.dayOf)),
    ...order.parts.map(
      ({ jobNumber, on, name, serial }): OrderLine => ({
        kind: "part",
        on,
        job: String(jobNumber),
        what: name,
        quantity: "1",
        unit: "piece",
        detail: serial ? `serial ${serial}` : "",
      }),
    ),
    ...order.masses.map(
      ({ jobNumber, on, what, refrigerant, massKg, cylinder }): OrderLine => ({
        kind: "refrigerant",
        on,
        job: String(jobNumber),
        what: `${refrigerant ?? "not identified"}, ${what}`,
        quantity: massKg.toFixed(3),
        unit: "kg",
        detail: cylinder ? `cylinder ${cylinder}` : "",
      }),
    ),
  ];
}

const HOUR_MS = 3_600_000;

/** Each person's time between arriving and leaving; a visit whose arrival or end nobody noted has no hours. */
function labourLines({ people, steps }: BilledVisit, dayOf: (at: Date) => string): OrderLine[] {
  const inTime = [...steps].sort((a, b) => a.at.getTime() - b.at.getTime());
  const arrived = inTime.find(({ to }) => to === "on-site")?.at;
  if (!arrived) return [];
  const left = inTime.find(({ to, at }) => (to === "done" || to === "left-for-today") && at >= arrived)?.at;
  return people.map((person) => ({
    kind: "labour",
    on: dayOf(arrived),
    job: "",
    what: person,
    quantity: left ? ((left.getTime() - arrived.getTime()) / HOUR_MS).toFixed(2) : "",
    unit: "h",
    detail: left ? "time on site" : "still on site, or the end was not noted",
  }));
}
