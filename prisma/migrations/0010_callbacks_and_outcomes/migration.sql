-- Callbacks, what each closed job counts for in the quality figures, and the tallies the dashboards read. Outcomes and tallies are
-- kept by triggers, so that no way of closing a job or deciding a callback can pass them by.

-- ---------------------------------------------------------------- callbacks

-- What an hour of a return visit costs the company; without a row hours are counted and not priced.
create table callback_rule (
  tenant_id       uuid    primary key default app_tenant() references company (tenant_id),
  hour_cost_cents integer check (hour_cost_cents between 0 and 10000000),
  currency        text    not null default 'USD' check (currency ~ '^[A-Z]{3}$')
);

-- Causes a company adds to the program's own short list.
create table callback_cause (
  tenant_id  uuid not null default app_tenant() references company (tenant_id),
  id         uuid not null,
  words      text not null check (length(words) between 1 and 120),
  retired_at timestamptz,
  primary key (tenant_id, id)
);

-- A later work order that may come from an earlier job. At most one for a work order; a person decides it, and may decide again.
create table callback (
  tenant_id         uuid             not null default app_tenant(),
  work_order_id     uuid             not null,
  origin_job_id     uuid             not null,
  basis             text             not null check (basis in ('same-circuit', 'same-unit')),
  came_on           date             not null,   -- the site's day on which the later order was opened
  state             text             not null default 'proposed' check (state in ('proposed', 'confirmed', 'not-related')),
  proposed_at       timestamptz      not null default now(),
  decided_by        uuid,
  decided_at        timestamptz,
  cause_code        text             check (length(cause_code) <= 40),
  own_cause_id      uuid,
  note              text             not null default '' check (length(note) <= 2000),
  work_hours        double precision check (work_hours between 0 and 10000),
  travel_cents      integer          check (travel_cents >= 0),
  refrigerant_cents integer          check (refrigerant_cents >= 0),
  parts_cents       integer          check (parts_cents >= 0),
  goodwill_cents    integer          check (goodwill_cents >= 0),
  version           integer          not null default 1,
  primary key (tenant_id, work_order_id),
  foreign key (tenant_id, work_order_id) references work_order (tenant_id, id),
  foreign key (tenant_id, origin_job_id) references circuit_job (tenant_id, id),
  foreign key (tenant_id, decided_by) references member (tenant_id, person_id),
  foreign key (tenant_id, own_cause_id) references callback_cause (tenant_id, id),
  check (state <> 'confirmed' or num_nonnulls(cause_code, own_cause_id) = 1)
);
create index on callback (tenant_id, origin_job_id);
create index on callback (tenant_id, state, came_on desc);

-- ---------------------------------------------------------------- outcomes and tallies

-- One row a job that was ever closed; closed_on is empty while it is open again. Days are the site's.
create table job_outcome (
  tenant_id   uuid not null default app_tenant(),
  job_id      uuid not null,
  closed_on   date,
  strength    text not null check (strength in ('strong', 'fair', 'weak', 'none')),
  job_kind    text not null,
  unit_age    text not null check (unit_age in ('0-4', '5-9', '10-14', '15+', 'unknown')),
  person_id   uuid,                                -- who closed it
  callback_on date,                                -- the first confirmed callback
  primary key (tenant_id, job_id),
  foreign key (tenant_id, job_id) references circuit_job (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
create index on job_outcome (tenant_id, closed_on, job_id) where closed_on is not null;
create index on job_outcome (tenant_id, closed_on) where closed_on is not null and callback_on is not null;

-- Closed jobs of a month by what makes them alike. Callbacks are few and are counted from the outcomes, so that a changed window needs no recount.
create table outcome_month (
  tenant_id uuid    not null default app_tenant() references company (tenant_id),
  month     date    not null,
  strength  text    not null,
  job_kind  text    not null,
  unit_age  text    not null,
  jobs      integer not null,
  primary key (tenant_id, month, strength, job_kind, unit_age)
);

create table person_month (
  tenant_id uuid    not null default app_tenant(),
  month     date    not null,
  person_id uuid    not null,
  job_kind  text    not null,
  jobs      integer not null,
  primary key (tenant_id, month, person_id, job_kind),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);

create function unit_age_band(p_years integer) returns text
  language sql immutable parallel safe
  return case when p_years is null then 'unknown' when p_years < 5 then '0-4' when p_years < 10 then '5-9' when p_years < 15 then '10-14' else '15+' end;

-- Writes what a job counts for when it closes, and takes it out again when it is opened by a late entry.
create function keep_job_outcome() returns trigger language plpgsql as $$
  declare
    v_zone text;
    v_year integer;
    v_closed date;
    v_person uuid;
  begin
    if new.state <> 'closed' then
      update job_outcome set closed_on = null where tenant_id = new.tenant_id and job_id = new.id and closed_on is not null;
      return null;
    end if;
    select s.time_zone, e.year_made into v_zone, v_year
      from work_order o
      join service_call c on c.tenant_id = o.tenant_id and c.id = o.service_call_id
      join site s on s.tenant_id = c.tenant_id and s.id = c.site_id
      join circuit k on k.tenant_id = o.tenant_id and k.id = new.circuit_id
      join equipment e on e.tenant_id = k.tenant_id and e.id = k.equipment_id
      where o.tenant_id = new.tenant_id and o.id = new.work_order_id;
    -- a tablet whose clock runs ahead cannot close a job tomorrow
    v_closed := (least(coalesce((new.summary ->> 'closedAt')::timestamptz, new.changed_at), now()) at time zone v_zone)::date;
    select person_id into v_person from entry
      where tenant_id = new.tenant_id and job_id = new.id and kind = 'job-closed' order by received_seq desc limit 1;
    if v_person is null then
      select p.person_id into v_person from visit v
        join visit_person p on p.tenant_id = v.tenant_id and p.visit_id = v.id
        where v.tenant_id = new.tenant_id and v.work_order_id = new.work_order_id order by v.planned_start, p.person_id limit 1;
    end if;
    insert into job_outcome as o (tenant_id, job_id, closed_on, strength, job_kind, unit_age, person_id)
      values (new.tenant_id, new.id, v_closed, coalesce(new.strength, 'none'), coalesce(new.summary ->> 'kind', 'unknown'),
              unit_age_band(extract(year from v_closed)::integer - v_year), v_person)
      on conflict (tenant_id, job_id) do update
        set closed_on = excluded.closed_on, strength = excluded.strength, job_kind = excluded.job_kind,
            unit_age = excluded.unit_age, person_id = excluded.person_id
        where (o.closed_on, o.strength, o.job_kind, o.unit_age, o.person_id)
          is distinct from (excluded.closed_on, excluded.strength, excluded.job_kind, excluded.unit_age, excluded.person_id);
    return null;
  end $$;
create trigger keep_outcome_of_new after insert on circuit_job for each row when (new.state = 'closed') execute function keep_job_outcome();
create trigger keep_outcome after update of state, strength, summary on circuit_job for each row
  when (new.state = 'closed' or old.state = 'closed') execute function keep_job_outcome();

create function keep_outcome_tallies() returns trigger language plpgsql as $$
  begin
    if tg_op = 'UPDATE' and old.closed_on is not null then
      update outcome_month set jobs = jobs - 1 where tenant_id = old.tenant_id and month = date_trunc('month', old.closed_on)::date
        and strength = old.strength and job_kind = old.job_kind and unit_age = old.unit_age;
      update person_month set jobs = jobs - 1 where tenant_id = old.tenant_id and month = date_trunc('month', old.closed_on)::date
        and person_id = old.person_id and job_kind = old.job_kind;
    end if;
    if new.closed_on is not null then
      insert into outcome_month as m (tenant_id, month, strength, job_kind, unit_age, jobs)
        values (new.tenant_id, date_trunc('month', new.closed_on)::date, new.strength, new.job_kind, new.unit_age, 1)
        on conflict (tenant_id, month, strength, job_kind, unit_age) do update set jobs = m.jobs + 1;
      if new.person_id is not null then
        insert into person_month as m (tenant_id, month, person_id, job_kind, jobs)
          values (new.tenant_id, date_trunc('month', new.closed_on)::date, new.person_id, new.job_kind, 1)
          on conflict (tenant_id, month, person_id, job_kind) do update set jobs = m.jobs + 1;
      end if;
    end if;
    return null;
  end $$;
create trigger keep_tallies_of_new after insert on job_outcome for each row execute function keep_outcome_tallies();
create trigger keep_tallies after update of closed_on, strength, job_kind, unit_age, person_id on job_outcome for each row
  when ((old.closed_on, old.strength, old.job_kind, old.unit_age, old.person_id)
        is distinct from (new.closed_on, new.strength, new.job_kind, new.unit_age, new.person_id))
  execute function keep_outcome_tallies();

-- The first confirmed callback of the jobs a decision touches: the origin now, and the one it had before.
create function keep_callback_day() returns trigger language plpgsql as $$
  begin
    update job_outcome o set callback_on =
        (select min(c.came_on) from callback c where c.tenant_id = o.tenant_id and c.origin_job_id = o.job_id and c.state = 'confirmed')
      where o.tenant_id = new.tenant_id and (o.job_id = new.origin_job_id or tg_op = 'UPDATE' and o.job_id = old.origin_job_id);
    return null;
  end $$;
create trigger keep_day_of_new after insert on callback for each row when (new.state = 'confirmed') execute function keep_callback_day();
create trigger keep_day after update of state, origin_job_id, came_on on callback for each row
  when (new.state = 'confirmed' or old.state = 'confirmed') execute function keep_callback_day();

do $$
declare
  t text;
begin
  foreach t in array array['callback_rule','callback_cause','callback','job_outcome','outcome_month','person_month'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format('create policy tenant_isolation on %I using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()))', t);
    execute format('grant select, insert, update on %I to dryhold_app', t);
  end loop;
end $$;
grant execute on function unit_age_band(integer) to dryhold_app;

-- Jobs closed before there were outcomes.
update circuit_job set state = state where state = 'closed';
