"use client";

import { LinkButton } from "@/components/ui/button";
import { EmptyState } from "@/components/ui/notices";
import { LoadingLines } from "@/components/ui/progress";
import { Section } from "@/components/ui/section";
import { todayWords } from "@/lib/words/en/today";
import { useDevice, useNow } from "../device/device-context";
import { NothingKept } from "../fetch-notice";
import { addressOf } from "../place";
import { ProgramNotice } from "../program-notice";
import { ScreenFrame } from "../screen-frame";
import { nextVisit, startOf } from "./day";
import { KeptHere } from "./kept-here";
import { NextVisit, NextVisitActions } from "./next-visit";
import { awayWords } from "./time-words";
import { useDay } from "./use-day";
import { VisitLine } from "./visit-line";

export function TodayScreen() {
  const { person, desk } = useDevice();
  const day = useDay();
  const now = useNow(15_000);
  const next = day.content ? nextVisit(day.content.visits) : undefined;
  return (
    <ScreenFrame
      title={todayWords.companyToday(person.companyName)}
      actions={next && now !== undefined ? <NextVisitActions visit={next} /> : undefined}
    >
      <h1 className="sr-only">{todayWords.today}</h1>
      <ProgramNotice />
      {day.content === undefined || (day.content === null && day.outcome === undefined) || now === undefined ? (
        <LoadingLines lines={6} label={todayWords.beingRead} />
      ) : day.content === null ? (
        <NothingKept what={todayWords.today} outcome={day.outcome ?? "no-network"} onRetry={() => void day.refresh()} />
      ) : (
        <Visits visits={day.content.visits} now={now} />
      )}
      {day.fetchedAt && now !== undefined && day.outcome !== "fresh" && day.content && (
        <p className="text-small text-ink-soft">{todayWords.asTheOfficeHadIt(awayWords(day.fetchedAt, now))}</p>
      )}
      <KeptHere />
      <p className="border-t border-hairline pt-4">
        <LinkButton kind="plain" className="-ml-4" href={addressOf(desk.slug, { screen: "sign-out" })}>
          {todayWords.signOut(person.name)}
        </LinkButton>
      </p>
    </ScreenFrame>
  );
}

function Visits({ visits, now }: { visits: Parameters<typeof nextVisit>[0]; now: number }) {
  const next = nextVisit(visits);
  const rest = visits.filter((visit) => visit.id !== next?.id).sort((a, b) => startOf(a) - startOf(b));
  if (visits.length === 0)
    return (
      <EmptyState title={todayWords.noVisitsToday}>
        <p>{todayWords.noVisitsLead}</p>
      </EmptyState>
    );
  return (
    <div className="grid grid-cols-[minmax(0,1fr)] gap-5 desk:grid-cols-2 desk:gap-10">
      {next ? (
        <NextVisit visit={next} now={now} />
      ) : (
        <EmptyState title={todayWords.nothingMoreToDo}>
          <p>{todayWords.doneStandsBelow}</p>
        </EmptyState>
      )}
      {rest.length > 0 && (
        <Section title={todayWords.theRest}>
          <ul>
            {rest.map((visit) => (
              <VisitLine key={visit.id} visit={visit} now={now} />
            ))}
          </ul>
        </Section>
      )}
    </div>
  );
}
