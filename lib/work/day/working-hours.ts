import { err, ok, type Result } from "@/lib/result";
import type { DayClock } from "./day-clock";
import type { DayRecords, PersonRecord } from "./day-records";

export interface WorkingHours {
  readonly shift: readonly [beginS: number, finishS: number];
  readonly maxOvertimeS: number;
  readonly isOnCall: boolean;
  /** A second piece of the day that is not planned, because absence cuts the shift in two. */
  readonly isCut: boolean;
}

export type NotAtWork = "no-week-on-record" | "not-at-work" | "away" | "no-rest-yet" | "no-hours-left-this-week";

const DAY_S = 86_400;

/** When a person can be planned on this day: the shift, less absences, with the company's limits and the on-call rota. */
export function judgeWorkingHours(
  person: PersonRecord,
  records: Pick<DayRecords, "limits" | "otherDays">,
  clock: DayClock,
): Result<WorkingHours, NotAtWork> {
  const { limits } = records;
  const onCall = span(person, "on-call", clock);
  const ordinary: [number, number] | null = person.shift && [
    person.shift.beginsMinute * 60,
    person.shift.endsMinute * 60,
  ];
  if (ordinary === null && onCall.length === 0) return err(person.hasWeek ? "not-at-work" : "no-week-on-record");
  const whole = ordinary ?? [onCall[0]![0], onCall[0]![1]];
  const pieces = without(whole, span(person, "away", clock));
  const longest = pieces.reduce<[number, number] | null>(
    (best, piece) => (best === null || piece[1] - piece[0] > best[1] - best[0] ? piece : best),
    null,
  );
  if (longest === null) return err("away");

  const others = records.otherDays.filter(({ personId }) => personId === person.personId);
  const lastEndS = Math.max(
    ...others.map(({ toAt }) => clock.secondsOf(toAt)).filter((seconds) => seconds <= longest[0]),
    Number.NEGATIVE_INFINITY,
  );
  const beginS = Math.max(longest[0], lastEndS + (limits.minRestMinutes ?? 0) * 60);
  if (beginS >= longest[1]) return err("no-rest-yet");
  const capS = Math.min((limits.maxDayMinutes ?? 1440) * 60, weekLeftS(limits.maxWeekMinutes, others));
  if (capS <= 0) return err("no-hours-left-this-week");
  const finishS = Math.min(longest[1], beginS + capS);
  const leavesEarly = longest[1] < whole[1];
  const extraS = onCall.reduce(
    (most, [fromS, toS]) => (fromS <= longest[1] ? Math.max(most, toS - finishS) : most),
    limits.maxOvertimeMinutes * 60,
  );
  return ok({
    shift: [beginS, finishS],
    maxOvertimeS: leavesEarly ? 0 : Math.max(0, Math.min(extraS, beginS + capS - finishS)),
    isOnCall: onCall.length > 0,
    isCut: pieces.length > 1,
  });
}

function span(person: PersonRecord, kind: string, clock: DayClock): [number, number][] {
  return person.times
    .filter((time) => time.kind === kind)
    .map(({ fromAt, toAt }): [number, number] => [
      Math.max(0, clock.secondsOf(fromAt)),
      Math.min(DAY_S, clock.secondsOf(toAt)),
    ])
    .filter(([fromS, toS]) => fromS < toS)
    .sort(([a], [b]) => a - b);
}

function without(whole: readonly [number, number], gaps: readonly [number, number][]): [number, number][] {
  const pieces: [number, number][] = [];
  let fromS = whole[0];
  for (const [gapFromS, gapToS] of gaps) {
    if (gapFromS > fromS) pieces.push([fromS, Math.min(gapFromS, whole[1])]);
    fromS = Math.max(fromS, gapToS);
  }
  pieces.push([fromS, whole[1]]);
  return pieces.filter(([a, b]) => a < b);
}

function weekLeftS(maxWeekMinutes: number | null, others: readonly { fromAt: Date; toAt: Date }[]): number {
  if (maxWeekMinutes === null) return Number.POSITIVE_INFINITY;
  const worked = others.reduce((sum, { fromAt, toAt }) => sum + (toAt.getTime() - fromAt.getTime()) / 1000, 0);
  return maxWeekMinutes * 60 - worked;
}
