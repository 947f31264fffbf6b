"use client";

import { useState } from "react";
import { Button, LinkButton } from "@/components/ui/button";
import { visitWords } from "@/lib/words/en/visit";
import type { VisitState } from "@/lib/work/visit-state";
import { useDevice } from "../device/device-context";
import { addressOf } from "../place";
import type { DayVisit } from "../today/day";

type StepTo = Extract<VisitState, "on-the-way" | "on-site" | "left-for-today" | "done">;
type Failure = "no-network" | "signed-out" | "changed-meanwhile" | "server-trouble";

export interface VisitSteps {
  readonly pending: StepTo | null;
  readonly failure: Failure | null;
  readonly go: (visit: DayVisit, to: StepTo) => Promise<void>;
}

/** Tells the office where the technician is. Needs a network: it is news, not evidence. */
export function useVisitSteps(refresh: () => Promise<unknown>): VisitSteps {
  const { desk, ask } = useDevice();
  const [pending, setPending] = useState<StepTo | null>(null);
  const [failure, setFailure] = useState<Failure | null>(null);
  async function go(visit: DayVisit, to: StepTo) {
    setPending(to);
    setFailure(null);
    const answer = await ask(`/api/${desk.slug}/visits/${visit.id}/state`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ to, ...(visit.version !== undefined && { version: visit.version }) }),
    }).catch(() => null);
    if (!answer) setFailure("no-network");
    else if (answer.status === 401) setFailure("signed-out");
    else if (answer.status === 409) setFailure("changed-meanwhile");
    else if (!answer.ok) setFailure("server-trouble");
    await refresh();
    setPending(null);
  }
  return { pending, failure, go };
}

export function VisitActions({ visit, steps }: { visit: DayVisit; steps: VisitSteps }) {
  const { desk } = useDevice();
  const [job] = visit.jobs;
  const step = (to: StepTo, words: string, kind: "action" | "quiet") => (
    <Button key={to} kind={kind} pending={steps.pending === to} onClick={() => void steps.go(visit, to)}>
      {words}
    </Button>
  );
  const toJob = job && (
    <LinkButton key="job" kind="action" href={addressOf(desk.slug, { screen: "job", jobId: job.id })}>
      {visit.jobs.length === 1 ? visitWords.openJob(job.number) : visitWords.openTheFirstJob}
    </LinkButton>
  );
  return (
    <div className="grid gap-2">
      {steps.failure && (
        <p role="alert" className="font-medium text-refused">
          {visitWords.failure[steps.failure]}
        </p>
      )}
      <div className="flex flex-wrap gap-3 *:first:grow">
        {visit.state === "planned" && [
          step("on-the-way", visitWords.onTheWay, "action"),
          step("on-site", visitWords.onSite, "quiet"),
        ]}
        {visit.state === "on-the-way" && step("on-site", visitWords.onSite, "action")}
        {visit.state === "on-site" && [
          toJob,
          step("left-for-today", visitWords.leftForToday, "quiet"),
          step("done", visitWords.visitDone, "quiet"),
        ]}
        {visit.state !== "on-site" && visit.state !== "planned" && visit.state !== "on-the-way" && toJob}
      </div>
    </div>
  );
}
