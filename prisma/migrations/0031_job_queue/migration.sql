-- Work to be done later or again by the web processes themselves. A job holds ids and nothing else of a company's rows; it is asked for
-- before a company is known, so it lies in the gate. A job is put in the transaction of whatever made it necessary.

create table gate.job (
  id          uuid        primary key default gen_random_uuid(),
  company_id  uuid        not null references gate.company (id),
  kind        text        not null check (kind ~ '^[a-z-]{1,40}$'),
  key         text        not null check (length(key) between 1 and 100),  -- the same work asked for twice is one job
  is_daily    boolean     not null default false,
  due_at      timestamptz not null,
  attempts    integer     not null default 0,
  held_until  timestamptz,             -- a process works on it until then; one that died holds it no longer
  hold        uuid,                    -- of the process that holds it: a late one can end nothing
  ended_at    timestamptz,
  failed      boolean     not null default false,  -- given up after too many attempts
  unique (company_id, kind, key)
);
create index on gate.job (due_at) where ended_at is null;
create index on gate.job (ended_at) where ended_at is not null;

-- Puts a job for the company the transaction works for; one that is known already, also an ended one, changes nothing.
create function gate.put_job(p_kind text, p_key text, p_due timestamptz)
  returns void language sql security definer set search_path = ''
  as $$ insert into gate.job (company_id, kind, key, due_at) values (public.app_tenant(), p_kind, p_key, p_due)
        on conflict (company_id, kind, key) do nothing $$;

-- Four in the morning of the company's next day.
create function gate.next_morning(p_company uuid) returns timestamptz language sql stable set search_path = ''
  as $$ select (date_trunc('day', now() at time zone c.time_zone) + interval '1 day 4 hours') at time zone c.time_zone
        from public.company c where c.tenant_id = p_company $$;

-- Every company has each daily job once: now where it had none.
create function gate.put_daily_jobs(p_kinds text[])
  returns void language sql security definer set search_path = ''
  as $$ insert into gate.job (company_id, kind, key, is_daily, due_at)
        select c.id, k, 'daily', true, now() from gate.company c cross join unnest(p_kinds) k
        on conflict (company_id, kind, key) do nothing $$;

-- Takes the job that is due longest, of these kinds, for p_seconds; nobody else is given it meanwhile.
create function gate.take_job(p_kinds text[], p_seconds integer)
  returns table (id uuid, company_id uuid, kind text, key text, is_daily boolean, attempts integer, hold uuid)
  language sql security definer set search_path = ''
  as $$ update gate.job j set attempts = j.attempts + 1, hold = gen_random_uuid(), held_until = now() + make_interval(secs => p_seconds)
        where j.id = (
          select d.id from gate.job d
          where d.ended_at is null and d.due_at <= now() and d.kind = any (p_kinds) and (d.held_until is null or d.held_until < now())
          order by d.due_at limit 1 for update skip locked)
        returning j.id, j.company_id, j.kind, j.key, j.is_daily, j.attempts, j.hold $$;

-- Done: a daily one comes again the next morning.
create function gate.end_job(p_id uuid, p_hold uuid)
  returns boolean language sql security definer set search_path = ''
  as $$ with ended as (
          update gate.job set attempts = 0, hold = null, held_until = null, failed = false,
            due_at = case when is_daily then gate.next_morning(company_id) else due_at end,
            ended_at = case when is_daily then null else now() end
          where id = p_id and hold = p_hold returning 1)
        select exists (select 1 from ended) $$;

-- Put off: a daily one that is given up comes again the next morning, another stays as failed.
create function gate.put_off_job(p_id uuid, p_hold uuid, p_seconds integer, p_failed boolean)
  returns boolean language sql security definer set search_path = ''
  as $$ with put_off as (
          update gate.job set hold = null, held_until = null, failed = p_failed,
            attempts = case when p_failed then 0 else attempts end,
            due_at = case when p_failed and is_daily then gate.next_morning(company_id) else now() + make_interval(secs => p_seconds) end,
            ended_at = case when p_failed and not is_daily then now() end
          where id = p_id and hold = p_hold returning 1)
        select exists (select 1 from put_off) $$;

-- Ended jobs are forgotten after 60 days; how many were.
create function gate.forget_jobs()
  returns integer language sql security definer set search_path = ''
  as $$ with gone as (delete from gate.job where ended_at < now() - interval '60 days' returning 1) select count(*)::integer from gone $$;

revoke execute on function gate.put_job(text, text, timestamptz), gate.next_morning(uuid), gate.put_daily_jobs(text[]), gate.take_job(text[], integer),
  gate.end_job(uuid, uuid), gate.put_off_job(uuid, uuid, integer, boolean), gate.forget_jobs() from public;
grant execute on function gate.put_job(text, text, timestamptz), gate.put_daily_jobs(text[]), gate.take_job(text[], integer), gate.end_job(uuid, uuid),
  gate.put_off_job(uuid, uuid, integer, boolean), gate.forget_jobs() to dryhold_app;
