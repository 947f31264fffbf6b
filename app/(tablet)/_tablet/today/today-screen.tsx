"use client";

import { LinkButton } from "@/components/ui/button";
import { EmptyState } from "@/components/ui/notices";
import { LoadingLines } from "@/components/ui/progress";
import { Section } from "@/components/ui/section";
import { useDevice, useNow } from "../device/device-context";
import { NothingKept } from "../fetch-notice";
import { addressOf } from "../place";
import { ProgramNotice } from "../program-notice";
import { ScreenFrame } from "../screen-frame";
import { nextVisit, startOf } from "./day";
import { KeptHere } from "./kept-here";
import { NextVisit } from "./next-visit";
import { awayWords } from "./time-words";
import { useDay } from "./use-day";
import { VisitLine } from "./visit-line";

export function TodayScreen() {
  const { person, desk } = useDevice();
  const day = useDay();
  const now = useNow(15_000);
  return (
    <ScreenFrame title={`${person.companyName}, today`}>
      <h1 className="sr-only">Today</h1>
      <ProgramNotice />
      {day.content === undefined || (day.content === null && day.outcome === undefined) || now === undefined ? (
        <LoadingLines lines={6} label="Today is being read" />
      ) : day.content === null ? (
        <NothingKept what="Today" outcome={day.outcome ?? "no-network"} onRetry={() => void day.refresh()} />
      ) : (
        <Visits visits={day.content.visits} now={now} />
      )}
      {day.fetchedAt && now !== undefined && day.outcome !== "fresh" && day.content && (
        <p className="text-small text-ink-soft">
          As the office had it {awayWords(day.fetchedAt, now)}. It is renewed when there is a network.
        </p>
      )}
      <KeptHere />
      <p className="flex flex-wrap gap-3 border-t border-hairline pt-4">
        <LinkButton prefetch={false} kind="plain" href={addressOf(desk.slug, { screen: "sign-out" })}>
          Sign out {person.name}
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
      <EmptyState title="No visits today or tomorrow">
        <p>When the office plans one for you it stands here.</p>
      </EmptyState>
    );
  return (
    <>
      {next ? (
        <NextVisit visit={next} now={now} />
      ) : (
        <EmptyState title="Nothing more to do today">
          <p>What was done stands below.</p>
        </EmptyState>
      )}
      {rest.length > 0 && (
        <Section title="The rest">
          <ul>
            {rest.map((visit) => (
              <VisitLine key={visit.id} visit={visit} now={now} />
            ))}
          </ul>
        </Section>
      )}
    </>
  );
}
