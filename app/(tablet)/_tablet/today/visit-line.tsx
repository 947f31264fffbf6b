"use client";

import { Link } from "@/components/ui/link";
import { StateMark } from "@/components/ui/state-mark";
import { timeWords } from "@/lib/words/en/time";
import { todayWords } from "@/lib/words/en/today";
import { useDevice } from "../device/device-context";
import { addressOf } from "../place";
import type { DayVisit } from "./day";
import { clockWords, dayWords } from "./time-words";
import { visitStateOf } from "./visit-words";

export function VisitLine({ visit, now }: { visit: DayVisit; now: number }) {
  const { desk } = useDevice();
  const at = visit.plannedStart ?? visit.windowFrom;
  const day = at ? dayWords(at, visit.site.timeZone, now) : "";
  return (
    <li className="border-b border-hairline">
      <Link
        href={addressOf(desk.slug, { screen: "visit", visitId: visit.id })}
        className="grid min-h-16 grid-cols-[6.5rem_1fr_auto] items-center gap-4 py-2 text-ink no-underline"
      >
        <span className="grid font-mono">
          {at ? <time dateTime={at}>{clockWords(at, visit.site.timeZone)}</time> : todayWords.noTime}
          {day !== timeWords.today && day !== "" && <span className="font-sans text-small text-ink-soft">{day}</span>}
        </span>
        <span className="grid min-w-0">
          <span className="truncate font-semibold">{visit.customer.name}</span>
          <span className="truncate text-small text-ink-soft">
            {visit.site.city || visit.site.name}
            {visit.equipment && ` · ${visit.equipment.name}`} · {visit.call.symptom}
          </span>
        </span>
        <StateMark {...visitStateOf(visit.state)} className="text-small" />
      </Link>
    </li>
  );
}
