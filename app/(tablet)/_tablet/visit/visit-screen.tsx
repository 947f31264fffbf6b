"use client";

import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { LoadingLines } from "@/components/ui/progress";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { visitWords } from "@/lib/words/en/visit";
import { jobKindWord } from "@/lib/work/words";
import { useDevice, useNow } from "../device/device-context";
import { NothingKept } from "../fetch-notice";
import { addressOf } from "../place";
import { ScreenFrame } from "../screen-frame";
import type { DayVisit } from "../today/day";
import { awayWords, clockWords, dayWords, durationWords } from "../today/time-words";
import { useDay } from "../today/use-day";
import { visitStateOf } from "../today/visit-words";
import { useVisitSteps, VisitActions } from "./visit-actions";
import { WeakLastTime } from "./weak-last-time";

/** The visit before and at the door: who, where, how to get in, which unit, what was there before. */
export function VisitScreen({ visitId }: { visitId: string }) {
  const { desk } = useDevice();
  const day = useDay();
  const now = useNow(15_000);
  const steps = useVisitSteps(day.refresh);
  const visit = day.content?.visits.find((each) => each.id === visitId);
  const home = { href: addressOf(desk.slug, { screen: "today" }), label: visitWords.backToToday };
  if (now === undefined || day.content === undefined || (!visit && day.outcome === undefined))
    return (
      <ScreenFrame title={visitWords.visit} back={home}>
        <LoadingLines lines={6} label={visitWords.beingRead} />
      </ScreenFrame>
    );
  if (!visit)
    return (
      <ScreenFrame title={visitWords.visit} back={home}>
        {day.content === null || day.outcome !== "fresh" ? (
          <NothingKept
            what={visitWords.thisVisit}
            outcome={day.outcome ?? "no-network"}
            onRetry={() => void day.refresh()}
          />
        ) : (
          <EmptyState title={visitWords.notAmongYours}>
            <p>{visitWords.keptAreTodayAndTomorrow}</p>
          </EmptyState>
        )}
      </ScreenFrame>
    );
  return (
    <ScreenFrame
      title={visitWords.workOrderAndCustomer(visit.workOrder.number, visit.customer.name)}
      back={home}
      actions={<VisitActions visit={visit} steps={steps} />}
    >
      <Brief visit={visit} now={now} />
    </ScreenFrame>
  );
}

function Brief({ visit, now }: { visit: DayVisit; now: number }) {
  const { desk } = useDevice();
  const { site, equipment, customer } = visit;
  const at = visit.plannedStart ?? visit.windowFrom;
  const address = [site.street, [site.postalCode, site.city].filter(Boolean).join(" ")].filter(Boolean).join(", ");
  const others = visit.people.filter((person) => person.personId !== desk.person);
  return (
    <>
      <div className="grid gap-1">
        <StateMark {...visitStateOf(visit.state)} />
        <h1 className="text-title">{visit.call.symptom}</h1>
        <p className="text-ink-soft">
          {at
            ? `${dayWords(at, site.timeZone, now)} ${clockWords(at, site.timeZone)}, ${awayWords(at, now)}`
            : visitWords.noTimePlanned}
          {visit.windowFrom &&
            visit.windowTo &&
            ` · ${visitWords.promised(clockWords(visit.windowFrom, site.timeZone), clockWords(visit.windowTo, site.timeZone))}`}
        </p>
      </div>
      {visit.onSiteSince && (
        <p>
          {visitWords.onSiteSince(
            clockWords(visit.onSiteSince, site.timeZone),
            durationWords(Math.max(0, now - Date.parse(visit.onSiteSince)) / 1000),
          )}
        </p>
      )}
      <WeakLastTime history={visit.history} />
      <div className="grid grid-cols-[minmax(0,1fr)] gap-5 desk:grid-cols-2 desk:items-start desk:gap-x-10">
        <div className="grid gap-5">
          <Section title={visitWords.where}>
            <Facts
              items={[
                { term: visitWords.customer, value: customer.name },
                ...(customer.phone
                  ? [
                      {
                        term: visitWords.phone,
                        value: <BigLink href={`tel:${customer.phone}`}>{customer.phone}</BigLink>,
                      },
                    ]
                  : []),
                { term: visitWords.site, value: site.name || visitWords.noName },
                {
                  term: visitWords.address,
                  value:
                    site.latitude !== null && site.longitude !== null ? (
                      <BigLink href={`geo:${site.latitude},${site.longitude}`}>{address}</BigLink>
                    ) : (
                      address || visitWords.notGiven
                    ),
                },
                { term: visitWords.gettingIn, value: site.accessNote || visitWords.nothingNoted },
                ...(others.length > 0
                  ? [{ term: visitWords.withYou, value: others.map(({ name }) => name).join(", ") }]
                  : []),
              ]}
            />
          </Section>
          <Section title={visitWords.unit}>
            {equipment ? (
              <Facts
                items={[
                  { term: visitWords.unit, value: [equipment.name, equipment.place].filter(Boolean).join(", ") },
                  {
                    term: visitWords.nameplate,
                    value: [equipment.maker, equipment.model].filter(Boolean).join(" ") || visitWords.notRecorded,
                  },
                  { term: visitWords.serial, value: equipment.serial || visitWords.notRecorded },
                  { term: visitWords.made, value: equipment.yearMade ?? visitWords.notKnown },
                ]}
              />
            ) : (
              <p className="text-ink-soft">{visitWords.noUnit}</p>
            )}
          </Section>
        </div>
        <div className="grid gap-5">
          <Section title={visitWords.jobs}>
            {visit.jobs.length === 0 ? (
              <p className="text-ink-soft">{visitWords.noJobs}</p>
            ) : (
              <ul>
                {visit.jobs.map((job) => (
                  <li key={job.id} className="border-b border-hairline">
                    <Link
                      href={addressOf(desk.slug, { screen: "job", jobId: job.id })}
                      className="flex min-h-16 flex-wrap items-center gap-x-4 py-2 no-underline"
                    >
                      <span className="font-semibold">{visitWords.job(job.number)}</span>
                      <span className="text-ink">
                        {job.circuitName} · {job.refrigerant ?? visitWords.refrigerantNotKnown} ·{" "}
                        {jobKindWord[job.kind]}
                      </span>
                      <StateMark
                        state={job.state === "closed" ? "proven" : "waiting"}
                        word={job.state === "closed" ? visitWords.closed : visitWords.open}
                        className="ml-auto text-small"
                      />
                    </Link>
                  </li>
                ))}
              </ul>
            )}
          </Section>
          <Section title={visitWords.beforeOnThisUnit}>
            {visit.history.length === 0 ? (
              <p className="text-ink-soft">{visitWords.noHistory}</p>
            ) : (
              <ul className="grid">
                {visit.history.map((past) => (
                  <li key={past.jobNumber} className="flex flex-wrap gap-x-4 border-b border-hairline py-2">
                    <span>{visitWords.job(past.jobNumber)}</span>
                    <span>{jobKindWord[past.kind]}</span>
                    <span className="text-ink-soft">{awayWords(past.closedAt, now)}</span>
                    <span className="ml-auto">{visitWords.proof(past.strength ?? visitWords.notJudged)}</span>
                  </li>
                ))}
              </ul>
            )}
          </Section>
        </div>
      </div>
    </>
  );
}

function BigLink({ href, children }: { href: string; children: string }) {
  return (
    <a href={href} className="-my-1.5 inline-flex min-h-14 items-center">
      {children}
    </a>
  );
}
