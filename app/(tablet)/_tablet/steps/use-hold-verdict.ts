"use client";

import { useEffect, useRef, useState } from "react";
import type { HoldJudgement, HoldRecord } from "@/lib/hvac";
import { judgeHold } from "@/lib/hvac";

export interface HoldQuestion {
  readonly turn: number;
  readonly record: HoldRecord;
}
export interface HoldAnswer {
  readonly turn: number;
  readonly judgement: HoldJudgement;
}

/**
 * The verdict of a running hold, judged in a worker as readings arrive; the last one stands until the next is there. Where no
 * worker starts, the page judges by itself.
 */
export function useHoldVerdict(record: HoldRecord | null): HoldJudgement | null {
  const [judgement, setJudgement] = useState<HoldJudgement | null>(null);
  const judge = useRef<((question: HoldQuestion) => void) | null>(null);
  const turn = useRef(0);

  useEffect(() => {
    const take = (answer: HoldAnswer) => {
      if (answer.turn === turn.current) setJudgement(answer.judgement); // a newer reading has come meanwhile
    };
    const here = (question: HoldQuestion) => take({ turn: question.turn, judgement: judgeHold(question.record) });
    let last: HoldQuestion | null = null;
    let worker: Worker | undefined;
    try {
      worker = new Worker(new URL("./hold-verdict.worker.ts", import.meta.url), { type: "module" });
    } catch (cause) {
      console.error(cause);
    }
    const started = worker;
    if (started) {
      started.onmessage = ({ data }: MessageEvent<HoldAnswer>) => take(data);
      started.onerror = () => {
        judge.current = here;
        if (last) here(last);
      };
    }
    judge.current = started
      ? (question) => {
          last = question;
          started.postMessage(question);
        }
      : here;
    return () => {
      judge.current = null;
      started?.terminate();
    };
  }, []);

  useEffect(() => {
    turn.current += 1;
    if (record === null) setJudgement(null);
    else judge.current?.({ turn: turn.current, record });
  }, [record]);
  return judgement;
}
