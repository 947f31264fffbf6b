"use client";

import { useActionState } from "react";
import { Button } from "@/components/ui/button";
import { keepTyped } from "@/components/ui/keep-typed";
import { ErrorNotice } from "@/components/ui/notices";
import { VisitStateMark } from "@/components/work/marks";
import { VisitFields } from "@/components/work/visit-fields";
import { dayAt, localFieldValue, whenAt, windowAt } from "@/lib/work/site-time";
import { isMovable, isVisitState } from "@/lib/work/visit-state";
import { savePlan } from "../actions";

export interface ShownVisit {
  id: string;
  version: number;
  state: string;
  windowFrom: Date | null;
  windowTo: Date | null;
  plannedStart: Date | null;
  plannedMinutes: number;
  people: readonly { personId: string; person: { name: string } }[];
}

/** One visit: read-only once it has begun, a form before that and for a new one. */
export function VisitForm(props: {
  company: string;
  orderId: string;
  timeZone: string;
  visit: ShownVisit | null;
  technicians: Parameters<typeof VisitFields>[0]["technicians"];
}) {
  const { company, orderId, timeZone, visit } = props;
  const [outcome, save, pending] = useActionState(savePlan, null);
  const errors: Readonly<Record<string, string>> = outcome && !outcome.ok ? outcome.error.fields : {};
  const movable = visit === null || (isVisitState(visit.state) && isMovable(visit.state));
  return (
    <div className="grid gap-3 border-b border-hairline pb-4">
      {visit && (
        <p className="flex flex-wrap gap-x-5 gap-y-1">
          <VisitStateMark state={visit.state} />
          <span>{visit.people.map((each) => each.person.name).join(", ") || "nobody assigned"}</span>
          {visit.plannedStart && <span>starts {whenAt(visit.plannedStart, timeZone)}</span>}
          {visit.windowFrom && visit.windowTo && (
            <span className="text-ink-soft">promised {windowAt(visit.windowFrom, visit.windowTo, timeZone)}</span>
          )}
        </p>
      )}
      {movable && (
        <form action={save} onSubmit={keepTyped(save, pending)} className="grid max-w-[34rem] gap-4">
          <input type="hidden" name="company" value={company} />
          <input type="hidden" name="orderId" value={orderId} />
          {visit && <input type="hidden" name="visitId" value={visit.id} />}
          {visit && <input type="hidden" name="version" value={visit.version} />}
          {errors[""] && <ErrorNotice happened={errors[""]} />}
          <VisitFields
            technicians={props.technicians}
            errors={errors}
            {...(visit && { visit: fieldValues(visit, timeZone) })}
          />
          <div>
            <Button type="submit" kind="action" pending={pending} pendingWord="Saving">
              {visit ? "Save the plan" : "Plan this visit"}
            </Button>
          </div>
        </form>
      )}
    </div>
  );
}

function fieldValues(visit: ShownVisit, timeZone: string) {
  const { windowFrom, windowTo, plannedStart } = visit;
  const clock = (at: Date | null) => (at ? localFieldValue(at, timeZone).slice(11) : "");
  return {
    windowDay: windowFrom ? dayAt(windowFrom, timeZone) : "",
    windowFrom: clock(windowFrom),
    windowTo: clock(windowTo),
    plannedStart: plannedStart ? localFieldValue(plannedStart, timeZone) : "",
    plannedMinutes: visit.plannedMinutes,
    people: visit.people.map((each) => each.personId),
  };
}
