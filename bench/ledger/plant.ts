import type { Client } from "pg";
import { plantCompanyWith } from "../company/plant-owner";

export const BOOKS = { slug: "harrowfield", appliances: 20_000, jobs: 400_000, days: 1825, people: 60, cylinders: 400 };

/**
 * A company with 20 000 appliances and five years of books, about two million postings: every appliance's opening, then 400 000 jobs that
 * recover, charge from two cylinders and find the rest gone. Balances, monthly flows and marks to compute again as triggers would leave them.
 */
export async function plantBooks(client: Client): Promise<string> {
  const company = await plantCompanyWith(client, BOOKS.slug, true);
  // Built once over all rows, the indexes take a tenth of the time they take row by row.
  const { rows: indexes } = await client.query<{ name: string; definition: string }>(
    `select indexname as name, indexdef as definition from pg_indexes i
     where tablename = 'posting' and not exists (select from pg_constraint where conname = i.indexname)`,
  );
  for (const { name } of indexes) await client.query(`drop index "${name}"`);
  await client.query(
    PLANT.replaceAll("$company", `'${company}'::uuid`).replaceAll(
      /\$(appliances|jobs|days|people|cylinders)/g,
      (_, name) => String(BOOKS[name as Exclude<keyof typeof BOOKS, "slug">]),
    ),
  );
  for (const { definition } of indexes) await client.query(definition);
  await client.query("vacuum analyze");
  return company;
}

// Every service puts back what it finds gone, so that a circuit never holds less than nothing; one in fifty books a kilogram too much.
const PLANT = `
  set local enable_nestloop = off; -- nothing is analyzed yet
  insert into member (tenant_id, person_id, name, email, roles)
    select $company, gen_random_uuid(), 'Person ' || n, 'person' || n || '@bench.example', '{technician}' from generate_series(1, $people) n;
  insert into customer (tenant_id, id, name) select $company, gen_random_uuid(), 'Customer ' || n from generate_series(1, 500) n;
  create temporary table numbered_customer on commit drop as select id, row_number() over () - 1 as at from customer where tenant_id = $company;
  insert into site (tenant_id, id, customer_id, name, time_zone)
    select $company, gen_random_uuid(), c.id, 'Site ' || n, (array['America/Chicago', 'America/New_York', 'America/Denver'])[1 + n % 3]
    from generate_series(0, 1999) n join numbered_customer c on c.at = n % 500;
  create temporary table numbered_site on commit drop as select id, customer_id, row_number() over () - 1 as at from site where tenant_id = $company;
  create temporary table appliance on commit drop as
    select gen_random_uuid() as unit, gen_random_uuid() as circuit, n, s.id as site, s.customer_id as owner,
      (array['commercial_refrigeration', 'industrial_process_refrigeration', 'comfort_cooling'])[1 + n % 3] as kind,
      (array['R-404A', 'R-410A', 'R-134a', 'R-22'])[1 + n % 4] as refrigerant, (array[12, 40, 120, 300])[1 + n % 4]::numeric as charge
    from generate_series(0, $appliances - 1) n join numbered_site s on s.at = n % 2000;
  insert into equipment (tenant_id, id, site_id, name, appliance_kind, year_made)
    select $company, unit, site, 'Rack ' || n, kind, 2005 + n % 20 from appliance;
  insert into circuit (tenant_id, id, equipment_id, refrigerant_state, actual_refrigerant, nameplate_refrigerant, factory_charge_kg)
    select $company, circuit, unit, 'identified', refrigerant, refrigerant, charge from appliance;
  insert into cylinder (tenant_id, id, label, contents, refrigerant, water_capacity_kg, tare_kg, requalify_by)
    select $company, gen_random_uuid(), 'C-' || lpad(n::text, 4, '0'), 'new', (array['R-404A', 'R-410A', 'R-134a', 'R-22'])[1 + n % 4], 900, 300,
      current_date + n from generate_series(0, $cylinders - 1) n;
  create temporary table numbered_cylinder on commit drop as
    select id, refrigerant, row_number() over (partition by refrigerant order by label) - 1 as at, row_number() over () - 1 as n from cylinder where tenant_id = $company;
  insert into service_call (tenant_id, id, number, customer_id, site_id, symptom, urgency, taken_by, state)
    select $company, gen_random_uuid(), 1, customer_id, id, 'low', 'today', (select person_id from member where tenant_id = $company limit 1), 'done'
    from site where tenant_id = $company limit 1;
  insert into work_order (tenant_id, id, number, service_call_id, state)
    select $company, gen_random_uuid(), n, c.id, 'done' from service_call c, generate_series(1, 20000) n where c.tenant_id = $company;
  create temporary table service on commit drop as
    with people as (select person_id, row_number() over () - 1 as at from member where tenant_id = $company and roles = '{technician}'),
         dice as materialized (select n, current_date - floor(random() * $days)::int as day, 50 + floor(random() * 1500)::int as recovered,
                                 20 + floor(random() * random() * random() * 9000)::int as lost, floor(random() * ($cylinders / 4))::int as bottle
                               from generate_series(0, $jobs - 1) n)
    select uuidv7() as job, d.*, a.circuit, a.owner, a.refrigerant, o.id as work_order, p.person_id as person, c.id as cylinder, e.id as other
    from dice d join appliance a on a.n = d.n % $appliances join work_order o on o.number = 1 + d.n % 20000 join people p on p.at = d.n % $people
    join numbered_cylinder c on c.refrigerant = a.refrigerant and c.at = d.bottle
    join numbered_cylinder e on e.refrigerant = a.refrigerant and e.at = (d.bottle + 1) % ($cylinders / 4);
  insert into circuit_job (tenant_id, id, number, work_order_id, circuit_id, state, strength, summary)
    select $company, job, n + 1, work_order, circuit, 'closed', 'strong', '{"kind":"leak_repair","steps":[]}' from service;
  insert into posting (tenant_id, id, happened_on, posted_at, refrigerant, grams, from_kind, to_kind, to_circuit_id, cause, source_key)
    select $company, uuidv7(), current_date - $days, now() - interval '5 years', refrigerant, charge * 1000, 'before', 'circuit', circuit, 'opening', 'opening:' || circuit from appliance;
  insert into posting (tenant_id, id, happened_on, posted_at, refrigerant, grams, from_kind, to_kind, to_cylinder_id, cause, source_key)
    select $company, uuidv7(), current_date - $days, now() - interval '5 years', refrigerant, 2000000, 'supplier', 'cylinder', id, 'purchase', 'purchase:' || id from numbered_cylinder;
  insert into posting (tenant_id, id, happened_on, posted_at, refrigerant, grams, from_kind, from_circuit_id, to_kind, to_cylinder_id, cause, owner_id, source_key, job_id, person_id)
    select $company, uuidv7(), day, day, refrigerant, recovered, 'circuit', circuit, 'cylinder', cylinder, 'recovery', owner, 'job:' || job || ':1', job, person from service;
  insert into posting (tenant_id, id, happened_on, posted_at, refrigerant, grams, from_kind, from_circuit_id, to_kind, cause, source_key, job_id, person_id)
    select $company, uuidv7(), day, day, refrigerant, lost, 'circuit', circuit, 'loss', 'found-short', 'job:' || job || ':2', job, person from service;
  insert into posting (tenant_id, id, happened_on, posted_at, refrigerant, grams, from_kind, from_cylinder_id, to_kind, to_circuit_id, cause, source_key, job_id, person_id)
    select $company, uuidv7(), day, day, refrigerant, recovered, 'cylinder', cylinder, 'circuit', circuit, 'charge', 'job:' || job || ':3', job, person from service
    union all
    select $company, uuidv7(), day, day, refrigerant, lost - lost / 2, 'cylinder', other, 'circuit', circuit, 'charge', 'job:' || job || ':4', job, person from service
    union all
    select $company, uuidv7(), day, day, refrigerant, lost / 2 + case when n % 50 = 0 then 1000 else 0 end, 'cylinder', cylinder, 'circuit', circuit, 'charge', 'job:' || job || ':5', job, person from service;
  insert into refrigerant_balance (tenant_id, place_kind, place_id, refrigerant, grams)
    select $company, kind, coalesce(place, '00000000-0000-0000-0000-000000000000'), refrigerant, sum(grams) from (
      select from_kind as kind, coalesce(from_cylinder_id, from_circuit_id) as place, refrigerant, -grams as grams from posting where tenant_id = $company
      union all select to_kind, coalesce(to_cylinder_id, to_circuit_id), refrigerant, grams from posting where tenant_id = $company) m group by 2, 3, 4;
  insert into refrigerant_month (tenant_id, month, from_kind, to_kind, refrigerant, grams, postings)
    select $company, date_trunc('month', happened_on)::date, from_kind, to_kind, refrigerant, sum(grams), count(*) from posting where tenant_id = $company group by 2, 3, 4, 5;
  insert into duty_stale (tenant_id, circuit_id) select $company, circuit from appliance;
`;
