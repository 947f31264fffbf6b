"use client";

import { useMemo } from "react";
import { Section } from "@/components/ui/section";
import { type Happening, Timeline } from "@/components/ui/timeline";
import type { LogEntry } from "@/lib/hvac/procedure";
import { jobWords } from "@/lib/words/en/job";
import { agreementWords } from "@/lib/work/agreement";
import { useDevice } from "../device/device-context";
import { clockWords, dayWords } from "../today/time-words";
import { entryTitle } from "./entry-words";
import { useJobHere } from "./job-context";

/** Everything written on this job, newest first: nothing is ever taken out. */
export function LogList() {
  const { desk } = useDevice();
  const { job } = useJobHere();
  const zone = job.heading.job.site.timeZone;
  const happenings = useMemo(() => {
    const without = new Map(job.state.withoutEffect.map((each) => [each.entry, each.text]));
    return [...job.entries]
      .sort((a, b) => Date.parse(b.deviceAt) - Date.parse(a.deviceAt) || (a.id < b.id ? 1 : -1))
      .map(
        (entry): Happening => ({
          id: entry.id,
          at: entry.deviceAt,
          atWords: `${dayWords(entry.deviceAt, zone, Date.now())} ${clockWords(entry.deviceAt, zone)}`,
          title: entryTitle(entry),
          detail: [
            detailOf(entry),
            withoutWords(without.get(entry.id)),
            entry.person !== desk.person && jobWords.bySomeoneElse,
          ]
            .filter(Boolean)
            .join(" · "),
          ...(entry.stamp === null && { state: "waiting" as const, stateWord: jobWords.savedHere }),
        }),
      );
  }, [job.entries, job.state.withoutEffect, zone, desk.person]);
  return (
    <Section title={jobWords.theLog}>
      <Timeline label={jobWords.entriesOfThisJob} happenings={happenings} />
    </Section>
  );
}

function withoutWords(why: string | undefined): string {
  return why === undefined ? "" : jobWords.withoutEffect(why);
}

function detailOf(entry: LogEntry): string {
  switch (entry.kind) {
    case "note":
      return entry.body.text;
    case "circuit-opened":
    case "override-asked":
    case "override-answered":
    case "job-kind-set":
      return entry.body.why;
    case "left-for-today":
      return `${entry.body.holding}; ${entry.body.tag}; ${entry.body.note}`;
    case "work-agreed":
      return `${agreementWords(entry.body)}. ${entry.body.scope}`;
    case "criteria-replaced":
      return entry.body.document;
    default:
      return entry.supersedes?.why ?? "";
  }
}
