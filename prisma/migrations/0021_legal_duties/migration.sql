-- What the law asks about circuits: what is known of them, what was done, and what is due. Duties are computed by the program from the
-- rest and kept for lists; a circuit about which anything changed is marked, and computed again before its duties are shown.

-- The company's one method for the leak rate.
create table refrigerant_rule (
  tenant_id        uuid primary key default app_tenant() references company (tenant_id),
  leak_rate_method text not null default 'annualizing' check (leak_rate_method in ('annualizing','rolling'))
);

-- What the rules ask about a circuit and the register does not hold; without a row the program's own assumptions stand.
create table circuit_duty (
  tenant_id          uuid    not null default app_tenant(),
  circuit_id         uuid    not null,
  full_charge_grams  bigint  check (full_charge_grams > 0),
  full_charge_method text    not null default 'maker' check (full_charge_method in ('maker','calculated','measured','range')),
  installed_on       date,
  light_commercial   boolean,                        -- residential or light commercial; none: judged by use and charge
  process_shutdown   boolean not null default false,
  detection_system   boolean not null default false,
  hermetic_labelled  boolean not null default false,
  primary key (tenant_id, circuit_id),
  foreign key (tenant_id, circuit_id) references circuit (tenant_id, id)
);

-- What was done and seen, append-only: a correction supersedes, and one that only takes back is of the kind 'withdrawn'.
create table law_event (
  tenant_id   uuid        not null default app_tenant(),
  id          uuid        not null,
  circuit_id  uuid        not null,
  kind        text        not null check (kind in ('repair','initial-verification','follow-up-verification','normal-operation','leak-inspection',
                            'leak-check','recheck','detection-check','detection-fitted','retrofit-plan','retrofit-done','chronic-report','records-given','withdrawn')),
  happened_on date        not null,
  passed      boolean,
  done_by     text        not null default '' check (length(done_by) <= 200),
  certificate text        not null default '' check (length(certificate) <= 120),
  method      text        not null default '' check (length(method) <= 200),
  note        text        not null default '' check (length(note) <= 2000),
  source_key  text        not null check (length(source_key) <= 200),
  supersedes  uuid,
  job_id      uuid,
  entry_id    uuid,
  person_id   uuid        not null,
  recorded_at timestamptz not null default now(),
  primary key (tenant_id, id),
  unique (tenant_id, source_key),
  unique (tenant_id, supersedes),
  foreign key (tenant_id, circuit_id) references circuit (tenant_id, id),
  foreign key (tenant_id, supersedes) references law_event (tenant_id, id),
  foreign key (tenant_id, job_id) references circuit_job (tenant_id, id),
  foreign key (tenant_id, entry_id) references entry (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
create index on law_event (tenant_id, circuit_id, happened_on);

create table duty (
  tenant_id  uuid not null default app_tenant(),
  circuit_id uuid not null,
  code       text not null,
  since      date not null,
  words      text not null,
  from_day   date,
  due_by     date,
  done_on    date,
  whose      text not null,
  source     text not null,
  mark       text not null,
  call_id    uuid,                                   -- the service call made for it
  primary key (tenant_id, circuit_id, code, since),
  foreign key (tenant_id, circuit_id) references circuit (tenant_id, id),
  foreign key (tenant_id, call_id) references service_call (tenant_id, id)
);
create index on duty (tenant_id, due_by, circuit_id, code) where done_on is null;

create table duty_stale (
  tenant_id  uuid not null default app_tenant(),
  circuit_id uuid not null,
  primary key (tenant_id, circuit_id),
  foreign key (tenant_id, circuit_id) references circuit (tenant_id, id)
);

create function mark_duty_stale() returns trigger language plpgsql as $$
  begin
    if tg_table_name = 'posting' then
      insert into duty_stale (tenant_id, circuit_id)
        select tenant_id, from_circuit_id from added where from_circuit_id is not null
        union select tenant_id, to_circuit_id from added where to_circuit_id is not null
        order by 1, 2 on conflict do nothing;
    elsif tg_table_name = 'circuit' then
      insert into duty_stale (tenant_id, circuit_id) select tenant_id, id from added order by 1, 2 on conflict do nothing;
    elsif tg_table_name = 'equipment' then
      insert into duty_stale (tenant_id, circuit_id)
        select c.tenant_id, c.id from circuit c join added a on a.tenant_id = c.tenant_id and a.id = c.equipment_id order by 1, 2 on conflict do nothing;
    else
      insert into duty_stale (tenant_id, circuit_id) select distinct tenant_id, circuit_id from added order by 1, 2 on conflict do nothing;
    end if;
    return null;
  end $$;
create trigger mark_stale after insert on posting referencing new table as added for each statement execute function mark_duty_stale();
create trigger mark_stale after insert on law_event referencing new table as added for each statement execute function mark_duty_stale();
create trigger mark_stale after update on circuit referencing new table as added for each statement execute function mark_duty_stale();
create trigger mark_stale after update on equipment referencing new table as added for each statement execute function mark_duty_stale();
create trigger mark_stale_of_new after insert on circuit_duty referencing new table as added for each statement execute function mark_duty_stale();
create trigger mark_stale after update on circuit_duty referencing new table as added for each statement execute function mark_duty_stale();

do $$
declare
  t text;
begin
  foreach t in array array['refrigerant_rule','circuit_duty','law_event','duty','duty_stale'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format('create policy tenant_isolation on %I using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()))', t);
    execute format('grant select, insert on %I to dryhold_app', t);
  end loop;
end $$;
grant update on refrigerant_rule, circuit_duty, duty, duty_stale to dryhold_app;
grant delete on duty, duty_stale to dryhold_app;

insert into duty_stale (tenant_id, circuit_id) select tenant_id, id from circuit;
