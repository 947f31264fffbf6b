"use client";

import { useEffect, useState } from "react";
import type { JobState, LogEntry } from "@/lib/hvac/procedure";
import type { Traces } from "./answer";
import { ask, startJudging } from "./ask";

/** Entries and traces as they were folded together, and the state they fold to. */
export interface Folded {
  readonly entries: readonly LogEntry[];
  readonly traces: Traces;
  readonly state: JobState;
}

/** The job's state by the judges' worker; what stood before stays until the next is folded. Undefined until the first. */
export function useFolded(entries: readonly LogEntry[] | undefined, traces: Traces | undefined): Folded | undefined {
  const [folded, setFolded] = useState<Folded>();
  const [failed, setFailed] = useState<unknown>(null);
  useEffect(startJudging, []);
  useEffect(() => {
    if (!entries || !traces) return;
    let gone = false;
    ask("fold", { entries }, traces).then(
      (state) => !gone && setFolded({ entries, traces, state }),
      (cause: unknown) => !gone && setFailed(cause),
    );
    return () => {
      gone = true;
    };
  }, [entries, traces]);
  if (failed !== null) throw failed;
  return folded;
}
