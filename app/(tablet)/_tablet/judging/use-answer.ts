"use client";

import { useEffect, useRef, useState } from "react";
import type { Asked, Judged } from "./answer";
import { ask } from "./ask";

/**
 * The judges' answer to a question that changes as readings arrive; the last answer stands until the next is there. While one is
 * being judged later questions wait, and only the newest of them is asked. Null without a question.
 */
export function useAnswer<A extends Asked>(
  asked: A,
  question: Judged[A]["question"] | null,
): Judged[A]["answer"] | null {
  const [answer, setAnswer] = useState<Judged[A]["answer"] | null>(null);
  const [failed, setFailed] = useState<unknown>(null);
  const newest = useRef(question);
  const busy = useRef(false);
  const gone = useRef(false);
  useEffect(() => {
    gone.current = false;
    return () => {
      gone.current = true;
    };
  }, []);
  useEffect(() => {
    newest.current = question;
    if (question === null) setAnswer(null);
    else if (!busy.current) void judge(question);
    async function judge(next: Judged[A]["question"]): Promise<void> {
      busy.current = true;
      try {
        const said = await ask(asked, next);
        if (!gone.current && newest.current !== null) setAnswer(said);
      } catch (cause) {
        if (!gone.current) setFailed(cause);
      } finally {
        busy.current = false;
      }
      if (!gone.current && newest.current !== null && newest.current !== next) await judge(newest.current);
    }
  }, [asked, question]);
  if (failed !== null) throw failed;
  return answer;
}
