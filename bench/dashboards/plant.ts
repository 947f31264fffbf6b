import type { Client } from "pg";
import { plantCompanyWith } from "../company/plant-owner";

/** The large one: five years, 60 technicians, 250 000 closed jobs, six in a hundred back. */
export const LARGE = { slug: "oakmere", jobs: 250_000, days: 1825, people: 60, orders: 20_000 };
const SMALL = { jobs: 60, days: 300, people: 3, orders: 60 };

type Size = Omit<typeof LARGE, "slug">;

/** One company of this size with an owner who can sign in; jobs without logs, outcomes and tallies as the triggers would leave them. */
export async function plantCompany(client: Client, slug: string, size: Size, withOwner: boolean): Promise<string> {
  const id = await plantCompanyWith(client, slug, withOwner);
  await client.query(
    PLANT.replaceAll("$company", `'${id}'::uuid`).replaceAll(/\$(jobs|days|people|orders)/g, (_, name) =>
      String(size[name as keyof Size]),
    ),
  );
  return id;
}

/** Small companies beside the large one, until there are as many as asked for. */
export async function plantSmallUpTo(client: Client, count: number): Promise<void> {
  const { rows } = await client.query<{ n: string }>("select count(*) as n from company");
  for (let at = Number(rows[0]!.n); at < count; at += 1) await plantCompany(client, `small-${at}`, SMALL, false);
}

const PLANT = `
  set local enable_nestloop = off; -- nothing is analyzed yet: joined row by row, the large one would take an hour
  insert into member (tenant_id, person_id, name, email, roles)
    select $company, gen_random_uuid(), 'Person ' || n, 'person' || n || '@bench.example', '{technician}' from generate_series(1, $people) n;
  insert into customer (tenant_id, id, name) values ($company, gen_random_uuid(), 'Customer');
  insert into site (tenant_id, id, customer_id, name, time_zone)
    select $company, gen_random_uuid(), id, 'Site', 'America/Chicago' from customer where tenant_id = $company;
  insert into equipment (tenant_id, id, site_id, name, year_made)
    select $company, gen_random_uuid(), s.id, 'Unit ' || n, 2005 + n % 20 from site s, generate_series(1, least(2000, $jobs)) n where s.tenant_id = $company;
  insert into circuit (tenant_id, id, equipment_id) select $company, gen_random_uuid(), id from equipment where tenant_id = $company;
  insert into service_call (tenant_id, id, number, customer_id, site_id, symptom, urgency, taken_by, state)
    select $company, gen_random_uuid(), 1, c.id, s.id, 'no cooling', 'today', (select person_id from member where tenant_id = $company limit 1), 'done'
    from customer c, site s where c.tenant_id = $company and s.tenant_id = $company;
  insert into work_order (tenant_id, id, number, service_call_id, state)
    select $company, gen_random_uuid(), n, c.id, 'done' from service_call c, generate_series(1, $orders) n where c.tenant_id = $company;
  create temporary table drawn on commit drop as
    with people as (select person_id, row_number() over () - 1 as at from member where tenant_id = $company and roles = '{technician}'),
         orders as (select id, number - 1 as at from work_order where tenant_id = $company),
         circuits as (select id, row_number() over () - 1 as at from circuit where tenant_id = $company),
         dice as materialized (select n, floor(random() * $people)::int as person, floor(random() * $days)::int as days_ago,
                                 floor(random() * 4)::int as strength, floor(random() * 3)::int as kind, floor(random() * 4)::int as age
                               from generate_series(1, $jobs) n)
    select gen_random_uuid() as id, n, o.id as work_order, c.id as circuit, p.person_id as person, current_date - d.days_ago as closed,
      (array['strong', 'strong', 'fair', 'weak'])[1 + d.strength] as strength,
      (array['leak_repair', 'compressor_change', 'pump_down_service'])[1 + d.kind] as kind, (array['0-4', '5-9', '10-14', '15+'])[1 + d.age] as age
    from dice d join people p on p.at = d.person join orders o on o.at = n % $orders join circuits c on c.at = n % least(2000, $jobs);
  insert into circuit_job (tenant_id, id, number, work_order_id, circuit_id, state, strength, summary)
    select $company, id, n, work_order, circuit, 'closed', strength, jsonb_build_object('kind', kind, 'steps', '[]'::jsonb) from drawn;
  insert into job_outcome (tenant_id, job_id, closed_on, strength, job_kind, unit_age, person_id, callback_on)
    select $company, id, closed, strength, kind, age, person, case when n % 16 = 0 then least(current_date, closed + floor(random() * 85)::int) end from drawn;
  insert into callback (tenant_id, work_order_id, origin_job_id, basis, came_on, state, cause_code, work_hours, parts_cents)
    select $company, o.id, j.job_id, 'same-circuit', j.callback_on, 'confirmed',
      (array['moisture-left', 'part-failed', 'wrong-diagnosis'])[1 + floor(random() * 3)::int], 3, 9000
    from (select *, row_number() over () as n from job_outcome where tenant_id = $company and callback_on is not null) j
    join work_order o on o.tenant_id = $company and o.number = j.n;
  insert into outcome_month (tenant_id, month, strength, job_kind, unit_age, jobs)
    select tenant_id, date_trunc('month', closed_on)::date, strength, job_kind, unit_age, count(*) from job_outcome where tenant_id = $company group by 1, 2, 3, 4, 5;
  insert into person_month (tenant_id, month, person_id, job_kind, jobs)
    select tenant_id, date_trunc('month', closed_on)::date, person_id, job_kind, count(*) from job_outcome where tenant_id = $company group by 1, 2, 3, 4;
`;
