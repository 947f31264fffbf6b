"use client";

import type { ReactElement } from "react";
import { Sheet } from "@/components/ui/dialog";
import { LoadingLines } from "@/components/ui/progress";
import { listProblems } from "@/lib/sync/device";
import { problemsWords } from "@/lib/words/en/problems";
import { useDevice } from "./device/device-context";
import { useLive } from "./device/use-live";
import { entryTitle } from "./job/entry-words";
import { clockWords, dayWords } from "./today/time-words";

/** The tablet's own zone: an entry alone does not say where its site is. */
const HERE = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The entries the server answered with a problem, each with its reason. They stay here and a supervisor sees them. */
export function ProblemSheet({ trigger }: { trigger: ReactElement }) {
  const { store, desk } = useDevice();
  const rows = useLive(`problems ${desk.company}`, ["outbox"], () => listProblems(store, desk));
  return (
    <Sheet side="bottom" title={problemsWords.notTaken} lead={problemsWords.theseEntriesAreKept} trigger={trigger}>
      {rows === undefined ? (
        <LoadingLines lines={2} />
      ) : (
        <ul className="grid">
          {rows.map((row) => (
            <li key={row.id} className="border-b border-hairline py-3">
              <p className="font-semibold">{entryTitle(row.entry)}</p>
              <p className="text-small text-ink-soft">
                {dayWords(row.entry.deviceAt, HERE, Date.now())} {clockWords(row.entry.deviceAt, HERE)} ·{" "}
                {row.problem?.message}
              </p>
            </li>
          ))}
        </ul>
      )}
    </Sheet>
  );
}
