"use client";

import type { ReactNode } from "react";
import { jobWords } from "@/lib/words/en/job";
import { useDevice } from "../device/device-context";
import { addressOf } from "../place";
import { ScreenFrame } from "../screen-frame";
import { useJobHere } from "./job-context";
import { JobLadder, rungName } from "./job-ladder";

/** One step on the screen: the sentence on top, the one thing of it, the buttons below, the ladder at the side. */
export function StepFrame(props: { sentence: string; obstacle?: ReactNode; actions?: ReactNode; children: ReactNode }) {
  const { desk } = useDevice();
  const { job, rung, choose } = useJobHere();
  const { number, equipment, visits } = job.heading.job;
  const [visit] = visits;
  const back = visit
    ? { href: addressOf(desk.slug, { screen: "visit", visitId: visit }), label: jobWords.backToTheVisit }
    : { href: addressOf(desk.slug, { screen: "today" }), label: jobWords.backToToday };
  return (
    <ScreenFrame
      title={jobWords.jobAndUnit(number, equipment.name)}
      back={back}
      ladder={<JobLadder state={job.state} chosen={rung} onChoose={choose} />}
      obstacle={props.obstacle}
      actions={props.actions}
    >
      <div className="grid gap-1">
        <p className="text-ink-soft wide:hidden">{rungName(rung)}</p>
        <h1 className="text-title">{props.sentence}</h1>
      </div>
      {props.children}
    </ScreenFrame>
  );
}
