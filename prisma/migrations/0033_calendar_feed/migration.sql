-- A technician's visits as a calendar that other programs read, opened by a secret address; looked up before a company is known.

create table gate.calendar_feed (
  token_hash  bytea       primary key check (octet_length(token_hash) = 32),
  id          uuid        not null unique,
  company_id  uuid        not null references gate.company (id),
  person_id   uuid        not null references gate.person (id),
  made_at     timestamptz not null default now(),
  revoked_at  timestamptz
);
create unique index on gate.calendar_feed (company_id, person_id) where revoked_at is null;

-- The address of this person in the company that holds; null when there is none.
create function gate.calendar_feed_of(p_person uuid)
  returns uuid language sql stable security definer set search_path = ''
  as $$ select f.id from gate.calendar_feed f where f.company_id = public.app_tenant() and f.person_id = p_person and f.revoked_at is null $$;

create function gate.make_calendar_feed(p_id uuid, p_token_hash bytea, p_person uuid)
  returns uuid language plpgsql security definer set search_path = ''
  as $$ begin
    insert into gate.calendar_feed (token_hash, id, company_id, person_id)
      select p_token_hash, p_id, m.tenant_id, m.person_id from public.member m
      where m.tenant_id = public.app_tenant() and m.person_id = p_person and m.active on conflict do nothing;
    return gate.calendar_feed_of(p_person);
  end $$;

create function gate.revoke_calendar_feed(p_person uuid)
  returns boolean language sql security definer set search_path = ''
  as $$ with revoked as (update gate.calendar_feed set revoked_at = now()
          where company_id = public.app_tenant() and person_id = p_person and revoked_at is null returning 1)
        select exists (select 1 from revoked) $$;

-- Whose calendar an address opens: only while it holds and the person is a technician of the company.
create function gate.find_calendar_feed(p_token_hash bytea)
  returns table (company_id uuid, slug text, company_name text, person_id uuid)
  language sql stable security definer set search_path = ''
  as $$ select f.company_id, g.slug, c.name, f.person_id
        from gate.calendar_feed f join gate.company g on g.id = f.company_id join public.company c on c.tenant_id = f.company_id
        join public.member m on m.tenant_id = f.company_id and m.person_id = f.person_id
        where f.token_hash = p_token_hash and f.revoked_at is null and m.active and 'technician' = any (m.roles) $$;

revoke execute on function gate.calendar_feed_of(uuid), gate.make_calendar_feed(uuid, bytea, uuid), gate.revoke_calendar_feed(uuid), gate.find_calendar_feed(bytea) from public;
grant execute on function gate.calendar_feed_of(uuid), gate.make_calendar_feed(uuid, bytea, uuid), gate.revoke_calendar_feed(uuid), gate.find_calendar_feed(bytea) to dryhold_app;
