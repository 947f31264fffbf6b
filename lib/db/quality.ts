import "server-only";
import { CohortTallier, type CohortTallies, isWeak, type Strength } from "@/lib/quality";
import type { Period } from "@/lib/work/quality-period";
import { Prisma } from "./generated/client";
import type { TenantTx } from "./tenant";

/** What the figures are asked for. Days are calendar days; a job is followed when it was closed at least the window before today. */
export interface QualityQuestion extends Period {
  readonly today: string;
  readonly windowDays: number;
  readonly jobKind: string | null;
}

export interface MonthTally {
  /** YYYY-MM. */
  readonly month: string;
  readonly jobs: number;
  readonly weakJobs: number;
  readonly callbacks: number;
}

export interface QualityTallies {
  readonly tallies: CohortTallies;
  /** Months of which every job has been followed. */
  readonly months: readonly MonthTally[];
  /** Jobs closed in the period, followed or not. */
  readonly closed: number;
}

interface CellRow {
  strength: Strength;
  job_kind: string;
  unit_age: string;
  jobs: number;
}
interface CallbackRow {
  part: "cell" | "person" | "day" | "month";
  strength: Strength | null;
  job_kind: string | null;
  unit_age: string | null;
  person_id: string | null;
  days: number | null;
  month: string | null;
  callbacks: number;
  followed: number;
}

/**
 * A period counted up from the tallies the database keeps. Whole followed months are read from the tallies, the broken
 * month at the edge of what has been followed and the jobs too young for it from the outcomes.
 */
export async function tallyQuality(tx: TenantTx, question: QualityQuestion): Promise<QualityTallies> {
  const { fromDay, toDay, today, windowDays } = question;
  const followed = await readFollowed(tx, question);
  const people = await readPeople(tx, question);
  const callbacks = await readCallbacks(tx, question);
  const young = await tx.$queryRaw<{ strength: Strength; days: number; jobs: number }[]>`
    select strength, (${today}::date - closed_on) as days, count(*)::int as jobs from job_outcome
    where closed_on >= ${fromDay}::date and closed_on < ${toDay}::date
      and closed_on > ${today}::date - ${windowDays}::int and closed_on <= ${today}::date and callback_on is null ${ofKind(question)}
    group by 1, 2`;

  const tallier = new CohortTallier();
  for (const row of followed) tallier.count(row.strength, stratumOf(row), { jobs: row.jobs, callbacks: 0 });
  for (const row of people) tallier.countPerson(row.person_id, { jobs: row.jobs, callbacks: 0 });
  const unreturned = countByStrength(followed);
  for (const row of callbacks) {
    const returned = { jobs: 0, callbacks: row.followed };
    if (row.part === "cell" && row.followed > 0) {
      tallier.count(row.strength!, stratumOf(row), returned);
      unreturned[row.strength!] -= row.followed;
    }
    if (row.part === "person" && row.person_id !== null && row.followed > 0)
      tallier.countPerson(row.person_id, returned);
    if (row.part === "day") tallier.follow(row.strength!, { day: row.days!, event: true, jobs: row.callbacks });
  }
  for (const [strength, jobs] of Object.entries(unreturned))
    if (jobs > 0) tallier.follow(strength as Strength, { day: windowDays, event: false, jobs });
  for (const { strength, days, jobs } of young) tallier.follow(strength, { day: days, event: false, jobs });

  const { tallies } = tallier;
  const all = [...tallies.followUps.weak, ...tallies.followUps.sound];
  return {
    tallies,
    months: await readMonths(tx, question, callbacks),
    closed: all.reduce((sum, { jobs = 1 }) => sum + jobs, 0),
  };
}

function stratumOf({ job_kind, unit_age }: Pick<CellRow, "job_kind" | "unit_age"> | CallbackRow): string {
  return `${job_kind} ${unit_age}`;
}

function countByStrength(rows: readonly CellRow[]): Record<Strength, number> {
  const counts = { strong: 0, fair: 0, weak: 0, none: 0 };
  for (const { strength, jobs } of rows) counts[strength] += jobs;
  return counts;
}

function ofKind({ jobKind }: QualityQuestion): Prisma.Sql {
  return jobKind === null ? Prisma.empty : Prisma.sql`and job_kind = ${jobKind}`;
}

/** The first day not followed for the whole window yet, or the period's end. */
function followedEnd({ toDay, today, windowDays }: QualityQuestion): Prisma.Sql {
  return Prisma.sql`least(${toDay}::date, ${today}::date - ${windowDays}::int + 1)`;
}

function readFollowed(tx: TenantTx, question: QualityQuestion): Promise<CellRow[]> {
  const end = followedEnd(question);
  return tx.$queryRaw<CellRow[]>`
    select strength, job_kind, unit_age, sum(jobs)::int as jobs from (
      select strength, job_kind, unit_age, jobs from outcome_month
      where month >= ${question.fromDay}::date and month < date_trunc('month', ${end})::date ${ofKind(question)}
      union all
      select strength, job_kind, unit_age, 1 from job_outcome
      where closed_on >= greatest(${question.fromDay}::date, date_trunc('month', ${end})::date) and closed_on < ${end} ${ofKind(question)}
    ) counted group by 1, 2, 3 having sum(jobs) > 0`;
}

function readPeople(tx: TenantTx, question: QualityQuestion): Promise<{ person_id: string; jobs: number }[]> {
  const end = followedEnd(question);
  return tx.$queryRaw<{ person_id: string; jobs: number }[]>`
    select person_id, sum(jobs)::int as jobs from (
      select person_id, jobs from person_month
      where month >= ${question.fromDay}::date and month < date_trunc('month', ${end})::date ${ofKind(question)}
      union all
      select person_id, 1 from job_outcome
      where closed_on >= greatest(${question.fromDay}::date, date_trunc('month', ${end})::date) and closed_on < ${end}
        and person_id is not null ${ofKind(question)}
    ) counted group by 1 having sum(jobs) > 0`;
}

/** Callbacks inside the window, counted by what makes jobs alike, by person, by days to the return and by month. */
function readCallbacks(tx: TenantTx, question: QualityQuestion): Promise<CallbackRow[]> {
  const { fromDay, toDay, today, windowDays } = question;
  return tx.$queryRaw<CallbackRow[]>`
    select case when grouping(job_kind) = 0 then 'cell' when grouping(person_id) = 0 then 'person'
                when grouping(days) = 0 then 'day' else 'month' end as part,
      strength, job_kind, unit_age, person_id::text as person_id, days, month,
      count(*)::int as callbacks, (count(*) filter (where followed))::int as followed
    from (select strength, job_kind, unit_age, person_id, to_char(closed_on, 'YYYY-MM') as month,
            greatest(callback_on - closed_on, 0) as days, closed_on < ${followedEnd(question)} as followed
          from job_outcome
          where closed_on >= ${fromDay}::date and closed_on < ${toDay}::date and callback_on is not null
            and callback_on - closed_on <= ${windowDays}::int and closed_on <= ${today}::date ${ofKind(question)}) returned
    group by grouping sets ((strength, job_kind, unit_age), (person_id), (strength, days), (month))`;
}

async function readMonths(
  tx: TenantTx,
  question: QualityQuestion,
  callbacks: readonly CallbackRow[],
): Promise<MonthTally[]> {
  const rows = await tx.$queryRaw<{ month: string; strength: Strength; jobs: number }[]>`
    select to_char(month, 'YYYY-MM') as month, strength, sum(jobs)::int as jobs from outcome_month
    where month >= ${question.fromDay}::date and month < date_trunc('month', ${followedEnd(question)})::date ${ofKind(question)}
    group by 1, 2 having sum(jobs) > 0 order by 1`;
  const returned = new Map(callbacks.flatMap((row) => (row.part === "month" ? [[row.month!, row.followed]] : [])));
  const months = new Map<string, { jobs: number; weakJobs: number }>();
  for (const { month, strength, jobs } of rows) {
    const tally = months.get(month) ?? { jobs: 0, weakJobs: 0 };
    months.set(month, { jobs: tally.jobs + jobs, weakJobs: tally.weakJobs + (isWeak(strength) ? jobs : 0) });
  }
  return [...months].map(([month, tally]) => ({ month, ...tally, callbacks: returned.get(month) ?? 0 }));
}

export interface CallbackGap {
  /** Good jobs since the one before that came back. */
  readonly jobs: number;
  readonly jobId: string;
  readonly number: number;
  /** The day the job that came back was closed. */
  readonly closedOn: string;
}

const MOST_GAPS = 60;

/** How many followed jobs went well between one that came back and the next, for the latest of them. */
export async function listCallbackGaps(tx: TenantTx, question: QualityQuestion): Promise<CallbackGap[]> {
  const { fromDay, windowDays } = question;
  const end = followedEnd(question);
  const rows = await tx.$queryRaw<{ job_id: string; number: bigint; closed_on: string; place: bigint }[]>`
    with latest as (
      select closed_on from job_outcome
      where closed_on >= ${fromDay}::date and closed_on < ${end} and callback_on - closed_on <= ${windowDays}::int ${ofKind(question)}
      order by closed_on desc limit ${MOST_GAPS + 1}
    ), placed as (
      select job_id, closed_on, callback_on, row_number() over (order by closed_on, job_id) as place from job_outcome
      where closed_on >= (select min(closed_on) from latest) and closed_on < ${end} ${ofKind(question)}
    )
    select p.job_id::text as job_id, j.number, to_char(p.closed_on, 'YYYY-MM-DD') as closed_on, p.place
    from placed p join circuit_job j on j.id = p.job_id
    where p.callback_on - p.closed_on <= ${windowDays}::int order by p.place`;
  return rows
    .slice(1)
    .map(({ job_id, number, closed_on, place }, index) => ({
      jobs: Number(place - rows[index]!.place) - 1,
      jobId: job_id,
      number: Number(number),
      closedOn: closed_on,
    }))
    .slice(-MOST_GAPS);
}

export interface CauseCost {
  readonly causeCode: string | null;
  readonly ownCauseId: string | null;
  readonly ownWords: string | null;
  readonly callbacks: number;
  /** Callbacks of which no cost at all was written down. */
  readonly unpriced: number;
  readonly ofWeakProof: number;
  readonly hours: number;
  readonly moneyCents: number;
}

/** Confirmed callbacks of the jobs closed in the period, by cause, with what they cost. */
export async function listCauseCosts(tx: TenantTx, { fromDay, toDay, jobKind }: QualityQuestion): Promise<CauseCost[]> {
  const kind = jobKind === null ? Prisma.empty : Prisma.sql`and o.job_kind = ${jobKind}`;
  return tx.$queryRaw<CauseCost[]>`
    select c.cause_code as "causeCode", c.own_cause_id::text as "ownCauseId", w.words as "ownWords", count(*)::int as callbacks,
      (count(*) filter (where num_nonnulls(c.work_hours, c.travel_cents, c.refrigerant_cents, c.parts_cents, c.goodwill_cents) = 0))::int as unpriced,
      (count(*) filter (where o.strength in ('weak', 'none')))::int as "ofWeakProof",
      coalesce(sum(c.work_hours), 0)::float8 as hours,
      coalesce(sum(coalesce(c.travel_cents, 0)::bigint + coalesce(c.refrigerant_cents, 0) + coalesce(c.parts_cents, 0) + coalesce(c.goodwill_cents, 0)), 0)::float8 as "moneyCents"
    from job_outcome o join callback c on c.origin_job_id = o.job_id left join callback_cause w on w.id = c.own_cause_id
    where o.closed_on >= ${fromDay}::date and o.closed_on < ${toDay}::date and o.callback_on is not null
      and c.state = 'confirmed' ${kind}
    group by 1, 2, 3 order by count(*) desc, 1, 3`;
}
