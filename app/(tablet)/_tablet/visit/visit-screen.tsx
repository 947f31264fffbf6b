"use client";

import Link from "next/link";
import { EmptyState } from "@/components/ui/notices";
import { LoadingLines } from "@/components/ui/progress";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { jobKindWord } from "@/lib/work/words";
import { useDevice, useNow } from "../device/device-context";
import { NothingKept } from "../fetch-notice";
import { addressOf } from "../place";
import { ScreenFrame } from "../screen-frame";
import type { DayVisit } from "../today/day";
import { awayWords, clockWords, dayWords } from "../today/time-words";
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
  const home = { href: addressOf(desk.slug, { screen: "today" }), label: "Back to today" };
  if (now === undefined || day.content === undefined || (!visit && day.outcome === undefined))
    return (
      <ScreenFrame title="Visit" back={home}>
        <LoadingLines lines={6} label="The visit is being read" />
      </ScreenFrame>
    );
  if (!visit)
    return (
      <ScreenFrame title="Visit" back={home}>
        {day.content === null || day.outcome !== "fresh" ? (
          <NothingKept what="This visit" outcome={day.outcome ?? "no-network"} onRetry={() => void day.refresh()} />
        ) : (
          <EmptyState title="This visit is not among yours">
            <p>Today and tomorrow are kept here. It may lie later, or have been given to someone else.</p>
          </EmptyState>
        )}
      </ScreenFrame>
    );
  return (
    <ScreenFrame
      title={`Work order ${visit.workOrder.number}, ${visit.customer.name}`}
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
            : "no time planned"}
          {visit.windowFrom &&
            visit.windowTo &&
            ` · promised ${clockWords(visit.windowFrom, site.timeZone)} to ${clockWords(visit.windowTo, site.timeZone)}`}
        </p>
      </div>
      <WeakLastTime history={visit.history} />
      <Section title="Where">
        <Facts
          items={[
            { term: "Customer", value: customer.name },
            ...(customer.phone
              ? [{ term: "Phone", value: <BigLink href={`tel:${customer.phone}`}>{customer.phone}</BigLink> }]
              : []),
            { term: "Site", value: site.name || "no name" },
            {
              term: "Address",
              value:
                site.latitude !== null && site.longitude !== null ? (
                  <BigLink href={`geo:${site.latitude},${site.longitude}`}>{address}</BigLink>
                ) : (
                  address || "not given"
                ),
            },
            { term: "Getting in", value: site.accessNote || "nothing noted" },
            ...(others.length > 0 ? [{ term: "With you", value: others.map(({ name }) => name).join(", ") }] : []),
          ]}
        />
      </Section>
      <Section title="Jobs">
        {visit.jobs.length === 0 ? (
          <p className="text-ink-soft">No sealed-system work is planned on this visit.</p>
        ) : (
          <ul>
            {visit.jobs.map((job) => (
              <li key={job.id} className="border-b border-hairline">
                <Link
                  href={addressOf(desk.slug, { screen: "job", jobId: job.id })}
                  prefetch={false}
                  className="flex min-h-16 flex-wrap items-center gap-x-4 py-2 no-underline"
                >
                  <span className="font-semibold">Job {job.number}</span>
                  <span className="text-ink">
                    {job.circuitName} · {job.refrigerant ?? "refrigerant not known"} · {jobKindWord[job.kind]}
                  </span>
                  <StateMark
                    state={job.state === "closed" ? "proven" : "waiting"}
                    word={job.state === "closed" ? "Closed" : "Open"}
                    className="ml-auto text-small"
                  />
                </Link>
              </li>
            ))}
          </ul>
        )}
      </Section>
      <Section title="Unit">
        {equipment ? (
          <Facts
            items={[
              { term: "Unit", value: [equipment.name, equipment.place].filter(Boolean).join(", ") },
              {
                term: "Nameplate",
                value: [equipment.maker, equipment.model].filter(Boolean).join(" ") || "not recorded",
              },
              { term: "Serial", value: equipment.serial || "not recorded" },
              { term: "Made", value: equipment.yearMade ?? "not known" },
            ]}
          />
        ) : (
          <p className="text-ink-soft">No unit was named on the call.</p>
        )}
      </Section>
      <Section title="Before on this unit">
        {visit.history.length === 0 ? (
          <p className="text-ink-soft">No sealed-system job has been closed on it here.</p>
        ) : (
          <ul className="grid">
            {visit.history.map((past) => (
              <li key={past.jobNumber} className="flex flex-wrap gap-x-4 border-b border-hairline py-2">
                <span>Job {past.jobNumber}</span>
                <span>{jobKindWord[past.kind]}</span>
                <span className="text-ink-soft">{awayWords(past.closedAt, now)}</span>
                <span className="ml-auto">proof {past.strength ?? "not judged"}</span>
              </li>
            ))}
          </ul>
        )}
      </Section>
    </>
  );
}

function BigLink({ href, children }: { href: string; children: string }) {
  return (
    <a href={href} className="-my-2 inline-flex min-h-11 items-center">
      {children}
    </a>
  );
}
