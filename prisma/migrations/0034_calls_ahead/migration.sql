-- Calls nobody rang for: of a maintenance plan, of a legal duty, of a part that is awaited. They stand at the board's edge with their last day.

alter table service_call
  add column origin       text not null default 'call' check (origin in ('call', 'maintenance', 'duty', 'return')),
  add column due_from     date,
  add column due_by       date check (due_by >= due_from),
  add column part_awaited text not null default '',
  add column part_came_at timestamptz;

-- Every so many months from a first day, something on a unit or one of its circuits. A call is made ahead of each time, one open call at a time.
create table maintenance_plan (
  tenant_id     uuid        not null default app_tenant(),
  id            uuid        not null,
  equipment_id  uuid        not null,
  circuit_id    uuid,
  what          text        not null check (what <> ''),
  every_months  integer     not null check (every_months between 1 and 120),
  first_due     date        not null,
  window_weeks  integer     not null check (window_weeks between 1 and 26),
  times_called  integer     not null default 0 check (times_called >= 0),  -- counted from the first day, so that the day of the month does not drift
  last_call_id  uuid,
  made_by       uuid        not null,
  made_at       timestamptz not null default now(),
  ended_at      timestamptz,
  primary key (tenant_id, id),
  foreign key (tenant_id, equipment_id) references equipment (tenant_id, id),
  foreign key (tenant_id, circuit_id) references circuit (tenant_id, id),
  foreign key (tenant_id, last_call_id) references service_call (tenant_id, id),
  foreign key (tenant_id, made_by) references member (tenant_id, person_id)
);
create index on maintenance_plan (tenant_id, equipment_id);
alter table maintenance_plan enable row level security;
alter table maintenance_plan force row level security;
create policy tenant_isolation on maintenance_plan using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()));
grant select, insert, update on maintenance_plan to dryhold_app;
