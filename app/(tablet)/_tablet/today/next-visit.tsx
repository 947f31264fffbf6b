"use client";

import { LinkButton } from "@/components/ui/button";
import { StateMark } from "@/components/ui/state-mark";
import { timeWords } from "@/lib/words/en/time";
import { todayWords } from "@/lib/words/en/today";
import { useDevice } from "../device/device-context";
import { addressOf } from "../place";
import { WeakLastTime } from "../visit/weak-last-time";
import { type DayVisit, startOf } from "./day";
import { awayWords, clockWords, dayWords } from "./time-words";
import { visitStateOf } from "./visit-words";

/** The visit to go to: when, where, what, and what was weak last time. */
export function NextVisit({ visit, now }: { visit: DayVisit; now: number }) {
  const { site, equipment } = visit;
  const at = visit.plannedStart ?? visit.windowFrom;
  return (
    <section aria-labelledby="next-visit" className="grid content-start gap-4">
      <div className="grid gap-1">
        <StateMark {...visitStateOf(visit.state)} />
        {at && startOf(visit) < Number.MAX_SAFE_INTEGER ? (
          <p className="flex flex-wrap items-baseline gap-x-4">
            <time dateTime={at} className="font-mono text-[3.5rem] font-medium leading-none">
              {clockWords(at, site.timeZone)}
            </time>
            <span className="text-title">{awayWords(at, now)}</span>
            {dayWords(at, site.timeZone, now) !== timeWords.today && (
              <span className="text-title">{dayWords(at, site.timeZone, now)}</span>
            )}
          </p>
        ) : (
          <p className="text-title">{todayWords.noTimePlannedYet}</p>
        )}
        {visit.windowFrom && visit.windowTo && (
          <p className="text-ink-soft">
            {todayWords.promisedBetween(
              clockWords(visit.windowFrom, site.timeZone),
              clockWords(visit.windowTo, site.timeZone),
            )}
          </p>
        )}
      </div>
      <div className="grid gap-1">
        <h2 id="next-visit" className="text-title">
          {visit.customer.name}
        </h2>
        <p>
          {[site.name, site.street, [site.postalCode, site.city].filter(Boolean).join(" ")].filter(Boolean).join(", ")}
        </p>
        <p>
          {equipment ? `${equipment.name}${equipment.place && `, ${equipment.place}`}: ` : ""}
          {visit.call.symptom}
        </p>
      </div>
      <WeakLastTime history={visit.history} />
    </section>
  );
}

/** The one large button of the day. */
export function NextVisitActions({ visit }: { visit: DayVisit }) {
  const { desk } = useDevice();
  const [job, ...moreJobs] = visit.jobs;
  const toVisit = addressOf(desk.slug, { screen: "visit", visitId: visit.id });
  if (visit.state !== "on-site" || !job || moreJobs.length > 0)
    return (
      <LinkButton kind="action" href={toVisit}>
        {todayWords.openTheVisit}
      </LinkButton>
    );
  return (
    <>
      <LinkButton kind="action" href={addressOf(desk.slug, { screen: "job", jobId: job.id })}>
        {todayWords.goOnWithJob(job.number)}
      </LinkButton>
      <LinkButton href={toVisit}>{todayWords.theVisit}</LinkButton>
    </>
  );
}
