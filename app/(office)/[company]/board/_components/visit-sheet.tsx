"use client";

import { useEffect, useState } from "react";
import { Button } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { Facts, Section } from "@/components/ui/section";
import { StateShape } from "@/components/ui/state-mark";
import { Urgency, VisitStateMark } from "@/components/work/marks";
import { type Board, type BoardVisit, clockOf, endMs, isMovable, isPlaced, minutesWords } from "@/lib/work/board/board";
import { isRefused, type Misfit } from "@/lib/work/board/fit";
import type { PlanCommand } from "@/lib/work/board/plan-command";
import { changesOf, type ToldChange } from "../actions";

/** The visit that was chosen: what it is, what stands in its way, what can be done, and what was done before. */
export function VisitSheet(props: {
  company: string;
  board: Board;
  visit: BoardVisit;
  misfits: readonly Misfit[];
  onCommand: (command: PlanCommand) => void;
  onCarry: (visit: BoardVisit) => void;
  onPropose: (visit: BoardVisit) => void;
  onClose: () => void;
}) {
  const { company, board, visit, misfits, onCommand } = props;
  const clock = (ms: number) => clockOf(board.days, ms);
  const names = board.people.filter(({ id }) => visit.people.includes(id)).map(({ name }) => name);
  const { id, version } = visit;
  const lengthen = (by: number) => onCommand({ do: "lengthen", id, version, minutes: visit.minutes + by });
  return (
    <Section
      title={visit.label}
      lead={visit.customer}
      actions={
        <Button kind="plain" onClick={props.onClose}>
          Close
        </Button>
      }
      className="content-start border-b border-hairline pb-4"
    >
      <p>{visit.symptom}</p>
      {misfits.length > 0 && (
        <ul className="grid gap-1" aria-label="What stands in the way">
          {misfits.map(({ kind, words }) => (
            <li key={kind} className="flex items-baseline gap-2 text-small">
              <StateShape state={isRefused({ kind, words }) ? "refused" : "needs-you"} />
              <span>{words}</span>
            </li>
          ))}
        </ul>
      )}
      <Facts
        items={[
          {
            term: "When",
            value: isPlaced(visit) ? `${clock(visit.startMs)} to ${clock(endMs(visit))}` : minutesWords(visit.minutes),
          },
          { term: "Who", value: names.join(", ") || "nobody yet" },
          {
            term: "Promised",
            value: visit.window ? `${clock(visit.window.fromMs)} to ${clock(visit.window.toMs)}` : "nothing",
          },
          { term: "Urgency", value: <Urgency urgency={visit.urgency} /> },
          {
            term: "State",
            value: visit.kind === "call" ? "no work order yet" : <VisitStateMark state={visit.state} />,
          },
          ...(visit.notes && visit.notes.length > 0
            ? [{ term: "Comes by itself", value: visit.notes.join(", ") }]
            : []),
          ...(visit.demands.length > 0 ? [{ term: "Needs", value: visit.demands.join(", ") }] : []),
          ...(Object.keys(visit.parts).length > 0
            ? [
                {
                  term: "Parts",
                  value: Object.entries(visit.parts)
                    .map(([part, n]) => `${n} × ${part}`)
                    .join(", "),
                },
              ]
            : []),
        ]}
      />
      <div className="no-print flex flex-wrap gap-2">
        {isMovable(visit) && <Button onClick={() => props.onCarry(visit)}>Move by keys</Button>}
        {isMovable(visit) && <Button onClick={() => props.onPropose(visit)}>Find a place</Button>}
        {visit.kind === "visit" && !["done", "left-for-today"].includes(visit.state) && (
          <>
            <Button onClick={() => lengthen(30)}>30 min longer</Button>
            {visit.minutes > 30 && <Button onClick={() => lengthen(-30)}>30 min shorter</Button>}
          </>
        )}
        {visit.kind === "visit" && isMovable(visit) && isPlaced(visit) && (
          <Button onClick={() => onCommand({ do: "take-off", id, version })}>Take off the board</Button>
        )}
      </div>
      <Link
        href={visit.orderId ? `/${company}/work-orders/${visit.orderId}` : `/${company}/calls/${visit.id}`}
        className="justify-self-start"
      >
        Open {visit.label.toLowerCase()}
      </Link>
      {visit.kind === "visit" && (
        <PastChanges key={`${id} ${version}`} company={company} id={id} onCommand={onCommand} />
      )}
    </Section>
  );
}

function PastChanges(props: { company: string; id: string; onCommand: (command: PlanCommand) => void }) {
  const { company, id } = props;
  const [told, setTold] = useState<readonly ToldChange[] | null>(null);
  useEffect(() => {
    let gone = false;
    changesOf(company, id).then(
      (changes) => !gone && setTold(changes),
      () => !gone && setTold([]),
    );
    return () => {
      gone = true;
    };
  }, [company, id]);
  if (told === null || told.length === 0) return null;
  return (
    <details>
      <summary className="min-h-8 cursor-pointer font-semibold">Changes</summary>
      <ul className="grid">
        {told.map(({ id: event, words, change }) => (
          <li
            key={event}
            className="flex items-baseline justify-between gap-3 border-b border-hairline py-1 text-small"
          >
            <span>{words}</span>
            {change && (
              <Button kind="plain" onClick={() => props.onCommand({ do: "undo", change })}>
                Take back
              </Button>
            )}
          </li>
        ))}
      </ul>
    </details>
  );
}
