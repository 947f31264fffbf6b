-- What became of a tool: what the office and the shop write down about it, and every record of a log that names it. Pump oil is counted by
-- the time the logs say the pump ran.

alter table tool
  add column check_due_on date,   -- by its maker's or the company's interval: hoses, recovery machines, pumps
  add column doubted_on   date;   -- two gauges differed by more than both may; until it is calibrated again

create table tool_event (
  tenant_id     uuid             not null default app_tenant(),
  id            uuid             not null,
  tool_id       uuid             not null,
  on_day        date             not null,
  person_id     uuid             not null,
  written_at    timestamptz      not null default now(),
  what          text             not null check (what in ('oil-changed', 'blank-off', 'calibrated', 'checked', 'compared')),
  micron        double precision check (micron > 0),           -- blank-off: the lowest the pump reached alone
  other_tool_id uuid,                                          -- compared: with which
  reading       double precision,                              -- compared: what this one showed
  other_reading double precision,
  allowed       double precision check (allowed >= 0),         -- compared: how far apart both may be
  job_id        uuid,                                          -- compared: on which job
  due_on        date,                                          -- calibrated, checked: until when
  good          boolean          not null,
  note          text             not null default '' check (length(note) <= 2000),
  primary key (tenant_id, id),
  foreign key (tenant_id, tool_id) references tool (tenant_id, id),
  foreign key (tenant_id, other_tool_id) references tool (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id),
  foreign key (tenant_id, job_id) references circuit_job (tenant_id, id),
  check ((what = 'compared') = (other_tool_id is not null and reading is not null and other_reading is not null and allowed is not null)),
  check ((what = 'blank-off') = (micron is not null)),
  check (other_tool_id <> tool_id)
);
create index on tool_event (tenant_id, tool_id, on_day desc);
create index on tool_event (tenant_id, other_tool_id) where other_tool_id is not null;

-- One row a tool an entry names. A corrected entry's row stays and counts no more.
create table tool_use (
  tenant_id  uuid             not null default app_tenant(),
  entry_id   uuid             not null,
  tool_id    uuid             not null,
  job_id     uuid             not null,
  step       text             not null,
  used_at    timestamptz      not null,
  run_hours  double precision check (run_hours >= 0),          -- pumps: how long it ran
  micron     double precision check (micron > 0),              -- pumps: blanked off before the work
  superseded boolean          not null default false,
  primary key (tenant_id, entry_id, tool_id),
  foreign key (tenant_id, entry_id) references entry (tenant_id, id),
  foreign key (tenant_id, tool_id) references tool (tenant_id, id),
  foreign key (tenant_id, job_id) references circuit_job (tenant_id, id)
);
create index on tool_use (tenant_id, tool_id, used_at desc);
create index on tool_use (tenant_id, job_id);

-- Adds hours to a pump whose oil is known, if it ran on or after the day of its oil change.
create function count_oil_hours(p_tenant uuid, p_tool uuid, p_at timestamptz, p_hours double precision) returns void
  language sql as $$
  update tool set oil_run_hours = greatest(0, oil_run_hours + p_hours)
    where tenant_id = p_tenant and id = p_tool and kind = 'pump' and oil_run_hours is not null
      and p_at >= coalesce(date_trunc('day', oil_changed_at), '-infinity')
$$;

create function keep_tool_use() returns trigger language plpgsql as $$
  declare
    v_evidence jsonb := new.wire #> '{body,evidence}';
    v_old record;
    v_use record;
  begin
    -- one device sends its entries in order; a correction that comes before what it corrects leaves that counted, which is the safe side
    for v_old in
      update tool_use set superseded = true
        where tenant_id = new.tenant_id and entry_id = (new.wire #>> '{supersedes,entry}')::uuid and job_id = new.job_id and not superseded
        returning tool_id, used_at, run_hours
    loop
      if v_old.run_hours is not null then
        perform count_oil_hours(new.tenant_id, v_old.tool_id, v_old.used_at, -v_old.run_hours);
      end if;
    end loop;
    for v_use in
      insert into tool_use (tenant_id, entry_id, tool_id, job_id, step, used_at, run_hours, micron)
        select new.tenant_id, new.id, t.id, new.job_id, new.wire #>> '{body,step}',
          coalesce((v_evidence ->> 'startedAt')::timestamptz, (new.wire ->> 'deviceAt')::timestamptz),
          case when part = 'pump' then
            least(168, greatest(0, extract(epoch from (v_evidence ->> 'endedAt')::timestamptz - (v_evidence ->> 'startedAt')::timestamptz) / 3600)) end,
          case when part = 'pump' then (v_evidence ->> 'blankOffMicron')::double precision end
        from unnest(array['pump', 'gauge', 'machine', 'scale']) part
        join tool t on t.tenant_id = new.tenant_id and t.id = (v_evidence #>> array[part, 'toolId'])::uuid
        on conflict do nothing
        returning tool_id, used_at, run_hours
    loop
      if v_use.run_hours is not null then
        perform count_oil_hours(new.tenant_id, v_use.tool_id, v_use.used_at, v_use.run_hours);
      end if;
    end loop;
    return null;
  end $$;
create trigger keep_tool_use after insert on entry for each row when (new.kind = 'step-recorded') execute function keep_tool_use();

do $$
declare
  t text;
begin
  foreach t in array array['tool_event','tool_use'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format('create policy tenant_isolation on %I using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()))', t);
    execute format('grant select, insert on %I to dryhold_app', t);
  end loop;
end $$;
grant update (superseded) on tool_use to dryhold_app;
grant execute on function count_oil_hours(uuid, uuid, timestamptz, double precision) to dryhold_app;

-- Records from before there was a history; hours already typed are not counted a second time.
insert into tool_use (tenant_id, entry_id, tool_id, job_id, step, used_at, micron)
  select e.tenant_id, e.id, t.id, e.job_id, e.wire #>> '{body,step}',
    coalesce((e.wire #>> '{body,evidence,startedAt}')::timestamptz, (e.wire ->> 'deviceAt')::timestamptz),
    case when part = 'pump' then (e.wire #>> '{body,evidence,blankOffMicron}')::double precision end
  from entry e cross join unnest(array['pump', 'gauge', 'machine', 'scale']) part
  join tool t on t.tenant_id = e.tenant_id and t.id = (e.wire #>> array['body', 'evidence', part, 'toolId'])::uuid
  where e.kind = 'step-recorded' on conflict do nothing;
