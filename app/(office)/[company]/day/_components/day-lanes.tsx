import { classNames } from "@/components/ui/class-names";
import { Link } from "@/components/ui/link";
import { VisitStateMark } from "@/components/work/marks";
import type { listTechnicians } from "@/lib/db/intake";
import type { listVisits } from "@/lib/db/visits";
import { clockAt } from "@/lib/work/site-time";

type Visit = Awaited<ReturnType<typeof listVisits>>[number];

/**
 * One lane a person. A visit is a bar inside the bracket of its promise: a bar that leaves its bracket is late.
 * The hours shown are the working ones, stretched to hold every bar and bracket.
 */
export function DayLanes(props: {
  company: string;
  technicians: Awaited<ReturnType<typeof listTechnicians>>;
  visits: readonly Visit[];
  bounds: { from: Date; to: Date };
  timeZone: string;
  now: Date | null;
}) {
  const { visits, bounds, timeZone, now } = props;
  const span = shownSpan(visits, bounds);
  const place = (at: Date) => `${(((at.getTime() - span.fromMs) / (span.toMs - span.fromMs)) * 100).toFixed(2)}%`;
  const hours = hoursWithin(span);
  return (
    <section
      className="overflow-x-auto"
      aria-label="Visits by person"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
      tabIndex={0}
    >
      <div className="min-w-[44rem]">
        <div className="relative ml-36 h-6 border-b border-hairline" aria-hidden="true">
          {hours.map((at) => (
            <span
              key={at.getTime()}
              className="absolute -translate-x-1/2 text-small text-ink-soft tabular-nums"
              style={{ left: place(at) }}
            >
              {clockAt(at, timeZone)}
            </span>
          ))}
        </div>
        {props.technicians.map((person) => {
          const mine = visits.filter((visit) => visit.people.some((each) => each.personId === person.personId));
          return (
            <div key={person.personId} className="grid grid-cols-[9rem_minmax(0,1fr)] border-b border-hairline">
              <h3 className="truncate py-2 pr-3 font-medium">{person.name}</h3>
              <ul className="relative" style={{ height: `${Math.max(1, lanesOf(mine).length) * 4.25}rem` }}>
                {hours.map((at) => (
                  <li
                    key={at.getTime()}
                    aria-hidden="true"
                    className="absolute inset-y-0 border-l border-hairline"
                    style={{ left: place(at) }}
                  />
                ))}
                {now && now.getTime() > span.fromMs && now.getTime() < span.toMs && (
                  <li
                    aria-hidden="true"
                    className="absolute inset-y-0 border-l-2 border-action"
                    style={{ left: place(now) }}
                  />
                )}
                {lanesOf(mine).flatMap((lane, row) =>
                  lane.map((visit) => (
                    <VisitBar
                      key={visit.id}
                      company={props.company}
                      visit={visit}
                      row={row}
                      place={place}
                      timeZone={timeZone}
                    />
                  )),
                )}
              </ul>
            </div>
          );
        })}
      </div>
    </section>
  );
}

function VisitBar(props: {
  company: string;
  visit: Visit;
  row: number;
  place: (at: Date) => string;
  timeZone: string;
}) {
  const { visit, place, timeZone } = props;
  const start = visit.plannedStart as Date;
  const end = endOf(visit);
  const { serviceCall: call, ...order } = visit.workOrder;
  const late = visit.windowTo !== null && start > visit.windowTo;
  const early = visit.windowFrom !== null && start < visit.windowFrom;
  return (
    <li>
      {visit.windowFrom && visit.windowTo && (
        <span
          aria-hidden="true"
          className="absolute h-2 border-x-2 border-b-2 border-edge"
          style={{
            top: `${props.row * 4.25 + 3.5}rem`,
            left: place(visit.windowFrom),
            width: `calc(${place(visit.windowTo)} - ${place(visit.windowFrom)})`,
          }}
        />
      )}
      <Link
        href={`/${props.company}/work-orders/${order.id}`}
        className={classNames(
          "absolute grid h-13 content-center overflow-hidden rounded-control border bg-raised px-2 text-small leading-tight text-ink no-underline hover:z-10 hover:bg-sunk focus-visible:z-10",
          late || early ? "border-2 border-refused" : "border-edge",
        )}
        style={{
          top: `${props.row * 4.25 + 0.25}rem`,
          left: place(start),
          width: `calc(${place(end)} - ${place(start)})`,
        }}
      >
        <span className="truncate font-semibold">
          {clockAt(start, timeZone)} {call.customer.name}
        </span>
        <span className="flex gap-2 truncate">
          <VisitStateMark state={visit.state} />
          {(late || early) && (
            <strong className="text-refused">{late ? "after its promise" : "before its promise"}</strong>
          )}
        </span>
        <span className="sr-only">
          until {clockAt(end, timeZone)}, {call.site.city}, {call.symptom}
        </span>
      </Link>
    </li>
  );
}

const hourMs = 3_600_000;

function endOf(visit: Visit): Date {
  return new Date((visit.plannedStart as Date).getTime() + visit.plannedMinutes * 60_000);
}

function shownSpan(visits: readonly Visit[], bounds: { from: Date; to: Date }) {
  let fromMs = bounds.from.getTime() + 7 * hourMs;
  let toMs = bounds.from.getTime() + 18 * hourMs;
  for (const visit of visits) {
    const starts = [visit.plannedStart, visit.windowFrom].flatMap((at) => (at ? [at.getTime()] : []));
    const ends = [endOf(visit), visit.windowTo].flatMap((at) => (at ? [at.getTime()] : []));
    fromMs = Math.min(fromMs, ...starts);
    toMs = Math.max(toMs, ...ends);
  }
  fromMs = Math.max(bounds.from.getTime(), Math.floor(fromMs / hourMs) * hourMs);
  toMs = Math.min(bounds.to.getTime(), Math.ceil(toMs / hourMs) * hourMs);
  return { fromMs, toMs };
}

function hoursWithin({ fromMs, toMs }: { fromMs: number; toMs: number }): Date[] {
  const hours: Date[] = [];
  for (let at = Math.ceil(fromMs / hourMs) * hourMs; at < toMs; at += hourMs) hours.push(new Date(at));
  return hours;
}

/** Visits that overlap go under each other. */
function lanesOf(visits: readonly Visit[]): Visit[][] {
  const lanes: Visit[][] = [];
  for (const visit of visits) {
    const lane = lanes.find((each) => endOf(each.at(-1) as Visit) <= (visit.plannedStart as Date));
    if (lane) lane.push(visit);
    else lanes.push([visit]);
  }
  return lanes;
}
