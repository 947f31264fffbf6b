-- The foundation: what comes before a tenant is known (schema gate), and one company's world under forced row-level security.
-- Every tenant table has tenant_id first in its key and in each unique and foreign key, so that tables can later be distributed by it.

create schema gate;
revoke all on schema public from public;
revoke all on schema gate from public;
grant usage on schema public to dryhold_app;
grant usage on schema gate to dryhold_app;

-- The company a transaction works for; none set means no rows, never an error.
create function app_tenant() returns uuid
  language sql stable parallel safe
  return nullif(current_setting('app.tenant_id', true), '')::uuid;
grant execute on function app_tenant() to dryhold_app;

-- ---------------------------------------------------------------- before a tenant is known

create table gate.company (
  id         uuid        primary key,
  slug       text        not null unique check (slug ~ '^[a-z0-9](?:[a-z0-9-]{0,46}[a-z0-9])?$'),
  created_at timestamptz not null default now()
);

create table gate.person (
  id            uuid        primary key,
  email         text        not null unique check (email = lower(email) and length(email) between 3 and 320),
  name          text        not null check (length(name) between 1 and 200),
  password_hash text        not null,
  created_at    timestamptz not null default now()
);

create table gate.session (
  id           uuid        primary key,
  person_id    uuid        not null references gate.person (id),
  device       text        not null default '' check (length(device) <= 300),
  opened_at    timestamptz not null default now(),
  last_seen_at timestamptz not null default now(),
  expires_at   timestamptz not null,
  ended_at     timestamptz
);
create index on gate.session (person_id) where ended_at is null;

create table gate.invitation (
  id          uuid        primary key,
  token_hash  bytea       not null unique check (octet_length(token_hash) = 32),
  company_id  uuid        not null references gate.company (id),
  email       text        not null check (email = lower(email)),
  name        text        not null check (length(name) between 1 and 200),
  roles       text[]      not null check (cardinality(roles) > 0 and roles <@ array['dispatcher','technician','supervisor','owner']),
  invited_by  uuid        not null references gate.person (id),
  created_at  timestamptz not null default now(),
  expires_at  timestamptz not null,
  used_at     timestamptz,
  withdrawn_at timestamptz
);
create index on gate.invitation (company_id);

-- Failed guesses per key (an address, an account); the wait doubles and old failures are forgotten.
create table gate.guess (
  key            text        primary key check (length(key) <= 400),
  failures       integer     not null,
  last_failed_at timestamptz not null
);

-- ---------------------------------------------------------------- one company's world

create table company (
  tenant_id            uuid    primary key default app_tenant(),
  name                 text    not null check (length(name) between 1 and 200),
  time_zone            text    not null,
  rule_set             text    not null default 'us' check (rule_set in ('us', 'eu')),
  callback_window_days integer not null default 90 check (callback_window_days between 1 and 730),
  criteria             jsonb   not null default '{}',  -- the company's own tightenings, never looser than the default
  is_demo              boolean not null default false
);

create table counter (
  tenant_id uuid    not null default app_tenant() references company (tenant_id),
  name      text    not null,
  value     bigint  not null,
  primary key (tenant_id, name)
);

create table member (
  tenant_id  uuid        not null default app_tenant() references company (tenant_id),
  person_id  uuid        not null,
  name       text        not null check (length(name) between 1 and 200),
  email      text        not null,
  phone      text        not null default '',
  roles      text[]      not null check (cardinality(roles) > 0 and roles <@ array['dispatcher','technician','supervisor','owner']),
  active     boolean     not null default true,
  joined_at  timestamptz not null default now(),
  primary key (tenant_id, person_id)
);

create table certificate (
  tenant_id  uuid not null default app_tenant(),
  id         uuid not null,
  person_id  uuid not null,
  kind       text not null check (kind in ('us-type-1','us-type-2','us-type-3','us-universal','eu-a1','eu-a2','eu-b','eu-c','eu-d','eu-e','flammables')),
  number     text not null default '' check (length(number) <= 100),
  issued_on  date,
  expires_on date,
  primary key (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
create index on certificate (tenant_id, person_id);

create table customer (
  tenant_id   uuid        not null default app_tenant() references company (tenant_id),
  id          uuid        not null,
  name        text        not null check (length(name) between 1 and 200),
  phone       text        not null default '' check (length(phone) <= 60),
  email       text        not null default '' check (length(email) <= 320),
  note        text        not null default '' check (length(note) <= 4000),
  created_at  timestamptz not null default now(),
  archived_at timestamptz,
  primary key (tenant_id, id)
);
create index on customer (tenant_id, lower(name));

create table site (
  tenant_id    uuid not null default app_tenant(),
  id           uuid not null,
  customer_id  uuid not null,
  name         text not null check (length(name) between 1 and 200),
  street       text not null default '' check (length(street) <= 300),
  city         text not null default '' check (length(city) <= 120),
  postal_code  text not null default '' check (length(postal_code) <= 20),
  region       text not null default '' check (length(region) <= 120),
  country      text not null default '' check (length(country) <= 60),
  time_zone    text not null,
  latitude     double precision check (latitude between -90 and 90),
  longitude    double precision check (longitude between -180 and 180),
  access_note  text not null default '' check (length(access_note) <= 2000),
  archived_at  timestamptz,
  primary key (tenant_id, id),
  foreign key (tenant_id, customer_id) references customer (tenant_id, id),
  check ((latitude is null) = (longitude is null))
);
create index on site (tenant_id, customer_id);

create table equipment (
  tenant_id      uuid    not null default app_tenant(),
  id             uuid    not null,
  site_id        uuid    not null,
  name           text    not null check (length(name) between 1 and 200),
  maker          text    not null default '' check (length(maker) <= 200),
  model          text    not null default '' check (length(model) <= 200),
  serial         text    not null default '' check (length(serial) <= 200),
  year_made      integer check (year_made between 1900 and 2100),
  place          text    not null default '' check (length(place) <= 300),
  appliance_kind text    not null default 'comfort_cooling'
                 check (appliance_kind in ('comfort_cooling','commercial_refrigeration','industrial_process_refrigeration','refrigerated_transport','small_appliance','other')),
  archived_at    timestamptz,
  primary key (tenant_id, id),
  foreign key (tenant_id, site_id) references site (tenant_id, id)
);
create index on equipment (tenant_id, site_id);
create index on equipment (tenant_id, lower(serial));

create table circuit (
  tenant_id                  uuid    not null default app_tenant(),
  id                         uuid    not null,
  equipment_id               uuid    not null,
  name                       text    not null default 'Circuit 1' check (length(name) between 1 and 100),
  nameplate_refrigerant      text    check (length(nameplate_refrigerant) <= 40),
  refrigerant_state          text    not null default 'unknown' check (refrigerant_state in ('identified','retrofitted','mixed','unknown')),
  actual_refrigerant         text    check (length(actual_refrigerant) <= 40),
  factory_charge_kg          double precision check (factory_charge_kg > 0),
  factory_line_length_m      double precision check (factory_line_length_m >= 0),
  line_length_m              double precision check (line_length_m >= 0),
  liquid_line_od_mm          double precision check (liquid_line_od_mm > 0),
  suction_line_od_mm         double precision check (suction_line_od_mm > 0),
  internal_volume_l          double precision check (internal_volume_l > 0),
  internal_volume_basis      text    not null default 'unknown' check (internal_volume_basis in ('stated','measured','estimated','unknown')),
  low_side_design_kpa_gauge  double precision check (low_side_design_kpa_gauge > 0),
  high_side_design_kpa_gauge double precision check (high_side_design_kpa_gauge > 0),
  archived_at                timestamptz,
  primary key (tenant_id, id),
  foreign key (tenant_id, equipment_id) references equipment (tenant_id, id),
  check ((refrigerant_state in ('identified','retrofitted')) = (actual_refrigerant is not null))
);
create index on circuit (tenant_id, equipment_id);

create table tool (
  tenant_id            uuid not null default app_tenant() references company (tenant_id),
  id                   uuid not null,
  kind                 text not null check (kind in ('pump','vacuum-gauge','pressure-gauge','thermometer','recovery-machine','scale','leak-detector','hoses','regulator','other')),
  name                 text not null check (length(name) between 1 and 200),
  serial               text not null default '' check (length(serial) <= 200),
  held_by              uuid,
  calibrated_on        date,
  calibration_due_on   date,
  made_on              date,                     -- a recovery machine's date decides which column of the recovery table holds
  rated_for            text[] not null default '{}' check (rated_for <@ array['A1','A2L','A2','A3','B1','B2L','B2','B3']),
  resolution           double precision check (resolution > 0),
  resolution_unit      text check (resolution_unit in ('micron','Pa','mbar','kPa','psi','bar','K','g')),
  accuracy_percent     double precision check (accuracy_percent between 0 and 50),
  litres_per_second    double precision check (litres_per_second > 0),
  ultimate_micron      double precision check (ultimate_micron > 0),
  oil_changed_at       timestamptz,
  oil_run_hours        double precision check (oil_run_hours >= 0),
  retired_at           timestamptz,
  primary key (tenant_id, id),
  foreign key (tenant_id, held_by) references member (tenant_id, person_id)
);

create table cylinder (
  tenant_id         uuid    not null default app_tenant() references company (tenant_id),
  id                uuid    not null,
  label             text    not null check (length(label) between 1 and 100),
  contents          text    not null check (contents in ('new','recovered','reclaimed','mixed-or-unknown','empty')),
  refrigerant       text    check (length(refrigerant) <= 40),
  water_capacity_kg double precision not null check (water_capacity_kg > 0),
  tare_kg           double precision not null check (tare_kg > 0),
  contents_kg       double precision not null default 0 check (contents_kg >= 0),
  requalify_by      date,
  for_flammables    boolean not null default false,
  refillable        boolean not null default true,
  held_by           uuid,
  retired_at        timestamptz,
  primary key (tenant_id, id),
  unique (tenant_id, label),
  foreign key (tenant_id, held_by) references member (tenant_id, person_id)
);

create table service_call (
  tenant_id    uuid        not null default app_tenant(),
  id           uuid        not null,
  number       bigint      not null,
  customer_id  uuid        not null,
  site_id      uuid        not null,
  equipment_id uuid,
  caller       text        not null default '' check (length(caller) <= 200),
  symptom      text        not null check (length(symptom) between 1 and 2000),
  urgency      text        not null check (urgency in ('danger','today','soon','planned')),
  taken_by     uuid        not null,
  taken_at     timestamptz not null default now(),
  state        text        not null default 'new' check (state in ('new','ordered','done','cancelled')),
  primary key (tenant_id, id),
  unique (tenant_id, number),
  foreign key (tenant_id, customer_id) references customer (tenant_id, id),
  foreign key (tenant_id, site_id) references site (tenant_id, id),
  foreign key (tenant_id, equipment_id) references equipment (tenant_id, id),
  foreign key (tenant_id, taken_by) references member (tenant_id, person_id)
);
create index on service_call (tenant_id, state, taken_at desc);
create index on service_call (tenant_id, equipment_id);

create table work_order (
  tenant_id       uuid        not null default app_tenant(),
  id              uuid        not null,
  number          bigint      not null,
  service_call_id uuid        not null,
  state           text        not null default 'open' check (state in ('open','done','cancelled')),
  opened_at       timestamptz not null default now(),
  ended_at        timestamptz,
  version         integer     not null default 1,
  primary key (tenant_id, id),
  unique (tenant_id, number),
  foreign key (tenant_id, service_call_id) references service_call (tenant_id, id)
);
create index on work_order (tenant_id, service_call_id);
create index on work_order (tenant_id, state, opened_at desc);

create table visit (
  tenant_id       uuid        not null default app_tenant(),
  id              uuid        not null,
  work_order_id   uuid        not null,
  state           text        not null default 'planned' check (state in ('planned','on-the-way','on-site','left-for-today','done','cancelled')),
  window_from     timestamptz,
  window_to       timestamptz,
  planned_start   timestamptz,
  planned_minutes integer     not null default 120 check (planned_minutes between 5 and 1440),
  version         integer     not null default 1,
  primary key (tenant_id, id),
  foreign key (tenant_id, work_order_id) references work_order (tenant_id, id),
  check ((window_from is null) = (window_to is null)),
  check (window_from < window_to)
);
create index on visit (tenant_id, work_order_id);
create index on visit (tenant_id, planned_start);

create table visit_person (
  tenant_id uuid not null default app_tenant(),
  visit_id  uuid not null,
  person_id uuid not null,
  primary key (tenant_id, visit_id, person_id),
  foreign key (tenant_id, visit_id) references visit (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
create index on visit_person (tenant_id, person_id);

-- The sealed-system work on one circuit. Its truth is its entry log; `summary` is the fold's last answer, kept for lists.
create table circuit_job (
  tenant_id     uuid        not null default app_tenant(),
  id            uuid        not null,
  number        bigint      not null,
  work_order_id uuid        not null,
  circuit_id    uuid        not null,
  opened_at     timestamptz not null default now(),
  state         text        not null default 'open' check (state in ('open','left-for-today','needs-review','closed')),
  strength      text        check (strength in ('strong','fair','weak','none')),
  asks_override boolean     not null default false,
  summary       jsonb       not null default '{}',
  changed_at    timestamptz not null default now(),
  primary key (tenant_id, id),
  unique (tenant_id, number),
  foreign key (tenant_id, work_order_id) references work_order (tenant_id, id),
  foreign key (tenant_id, circuit_id) references circuit (tenant_id, id)
);
create index on circuit_job (tenant_id, work_order_id);
create index on circuit_job (tenant_id, circuit_id, opened_at desc);
create index on circuit_job (tenant_id, state, changed_at desc);

-- ---------------------------------------------------------------- the log

-- Append-only. A resend is recognised by its id; (job, installation, person, seq) cannot fork. `wire` is the entry as the device sent it:
-- digests are taken over it, so nothing in it is reworded; the columns beside it are copies for keys and queries.
create table entry (
  tenant_id       uuid           not null default app_tenant(),
  id              uuid           not null,
  job_id          uuid           not null,
  installation_id uuid           not null,
  person_id       uuid           not null,
  seq             integer        not null check (seq >= 1),
  kind            text           not null,
  wire            jsonb          not null,
  received_seq    bigint         not null generated always as identity,
  received_at     timestamptz(3) not null default now(),
  roles           text[]         not null,          -- stamped by the server, never taken from the device
  primary key (tenant_id, id),
  unique (tenant_id, job_id, installation_id, person_id, seq),
  foreign key (tenant_id, job_id) references circuit_job (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
create index on entry (tenant_id, job_id, received_seq);

-- What could not be taken as an entry: kept as it came, for a supervisor.
create table quarantine (
  tenant_id   uuid        not null default app_tenant() references company (tenant_id),
  id          uuid        not null,
  person_id   uuid        not null,
  job_id      uuid,
  reason      text        not null,
  detail      jsonb       not null default '{}',
  raw         text        not null,
  raw_digest  bytea       not null check (octet_length(raw_digest) = 32),
  received_at timestamptz not null default now(),
  reviewed_by uuid,
  reviewed_at timestamptz,
  primary key (tenant_id, id),
  unique (tenant_id, person_id, raw_digest),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id),
  foreign key (tenant_id, reviewed_by) references member (tenant_id, person_id)
);
create index on quarantine (tenant_id, received_at desc);

create table trace (
  tenant_id   uuid        not null default app_tenant(),
  id          uuid        not null,
  job_id      uuid        not null,
  person_id   uuid        not null,
  created_at  timestamptz not null default now(),
  primary key (tenant_id, id),
  foreign key (tenant_id, job_id) references circuit_job (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
create index on trace (tenant_id, job_id);

-- Packed gauge samples, append-only: a chunk is never edited and never superseded.
create table trace_chunk (
  tenant_id    uuid    not null default app_tenant(),
  trace_id     uuid    not null,
  chunk_index  integer not null check (chunk_index >= 0),
  sample_count integer not null check (sample_count between 1 and 4096),
  packed       bytea   not null check (octet_length(packed) <= 262144),
  digest       bytea   not null check (octet_length(digest) = 32),
  received_at  timestamptz not null default now(),
  primary key (tenant_id, trace_id, chunk_index),
  foreign key (tenant_id, trace_id) references trace (tenant_id, id)
);

-- Judgements as they were given, by the device and by the server; when they differ both stay and are shown.
create table verdict (
  tenant_id     uuid        not null default app_tenant(),
  entry_id      uuid        not null,
  judged_by     text        not null check (judged_by in ('device','server')),
  rules_version text        not null,
  job_id        uuid        not null,
  verdict       text        not null,
  judgement     jsonb       not null,
  judged_at     timestamptz not null default now(),
  primary key (tenant_id, entry_id, judged_by, rules_version),
  foreign key (tenant_id, entry_id) references entry (tenant_id, id),
  foreign key (tenant_id, job_id) references circuit_job (tenant_id, id)
);
create index on verdict (tenant_id, job_id);

-- Who changed what in the office.
create table office_event (
  tenant_id  uuid        not null default app_tenant(),
  id         uuid        not null,
  at         timestamptz not null default now(),
  person_id  uuid        not null,
  what       text        not null,
  subject    text        not null,
  subject_id uuid        not null,
  detail     jsonb       not null default '{}',
  primary key (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
create index on office_event (tenant_id, subject_id, at desc);

-- ---------------------------------------------------------------- policies and rights

do $$
declare
  t text;
  append_only constant text[] := array['entry','trace','trace_chunk','verdict','office_event'];
begin
  foreach t in array array['company','counter','member','certificate','customer','site','equipment','circuit','tool','cylinder','service_call',
                           'work_order','visit','visit_person','circuit_job','entry','quarantine','trace','trace_chunk','verdict','office_event'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format('create policy tenant_isolation on %I using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()))', t);
    execute format('grant select, insert on %I to dryhold_app', t);
    if not t = any (append_only) then
      execute format('grant update on %I to dryhold_app', t);
    end if;
  end loop;
end $$;
revoke insert on company from dryhold_app;
grant delete on visit_person, certificate to dryhold_app;

-- ---------------------------------------------------------------- the named look-ups before a tenant is known

create function gate.find_sign_in(p_email text)
  returns table (person_id uuid, name text, password_hash text)
  language sql stable security definer set search_path = ''
  as $$ select id, p.name, p.password_hash from gate.person p where p.email = lower(p_email) $$;

create function gate.find_person(p_person uuid)
  returns table (email text, name text, password_hash text)
  language sql stable security definer set search_path = ''
  as $$ select p.email, p.name, p.password_hash from gate.person p where p.id = p_person $$;

create function gate.set_password(p_person uuid, p_hash text)
  returns void language sql security definer set search_path = ''
  as $$ update gate.person set password_hash = p_hash where id = p_person $$;

-- Takes one guess for this key, or answers how many seconds to wait for it. Every guess counts as wrong until forgiven, and the row lock
-- makes a burst wait its turn: three are free, then 2, 4, 8 … seconds up to 15 minutes; forgotten after a day.
create function gate.take_guess(p_key text)
  returns integer language plpgsql security definer set search_path = ''
  as $$
  declare
    g gate.guess;
    wait_s integer;
  begin
    insert into gate.guess (key, failures, last_failed_at) values (p_key, 0, now()) on conflict (key) do nothing;
    select * into g from gate.guess where key = p_key for update;
    if g.last_failed_at < now() - interval '1 day' then
      g.failures := 0;
    end if;
    if g.failures >= 3 then
      wait_s := ceil(extract(epoch from g.last_failed_at + make_interval(secs => least(900, power(2, least(g.failures, 20) - 2))) - clock_timestamp()));
      if wait_s > 0 then return wait_s; end if;
    end if;
    update gate.guess set failures = g.failures + 1, last_failed_at = clock_timestamp() where key = p_key;
    return 0;
  end $$;

create function gate.forgive_guesses(p_key text)
  returns void language sql security definer set search_path = ''
  as $$ delete from gate.guess where key = p_key or last_failed_at < now() - interval '2 days' $$;

create function gate.open_session(p_id uuid, p_person uuid, p_device text, p_ttl_s integer)
  returns void language sql security definer set search_path = ''
  as $$ insert into gate.session (id, person_id, device, expires_at) values (p_id, p_person, left(p_device, 300), now() + make_interval(secs => p_ttl_s)) $$;

-- The person behind a live session; noting the use at most once a minute keeps reads cheap.
create function gate.check_session(p_id uuid)
  returns table (person_id uuid, name text, email text)
  language plpgsql security definer set search_path = ''
  as $$
  begin
    update gate.session s set last_seen_at = now()
      where s.id = p_id and s.ended_at is null and s.expires_at > now() and s.last_seen_at < now() - interval '1 minute';
    return query select p.id, p.name, p.email from gate.session s join gate.person p on p.id = s.person_id
      where s.id = p_id and s.ended_at is null and s.expires_at > now();
  end $$;

create function gate.list_sessions(p_person uuid)
  returns table (id uuid, device text, opened_at timestamptz, last_seen_at timestamptz)
  language sql stable security definer set search_path = ''
  as $$ select s.id, s.device, s.opened_at, s.last_seen_at from gate.session s
        where s.person_id = p_person and s.ended_at is null and s.expires_at > now() order by s.last_seen_at desc $$;

create function gate.end_session(p_id uuid, p_person uuid)
  returns void language sql security definer set search_path = ''
  as $$ update gate.session set ended_at = now() where id = p_id and person_id = p_person and ended_at is null $$;

create function gate.end_all_sessions(p_person uuid)
  returns integer language sql security definer set search_path = ''
  as $$ with ended as (update gate.session set ended_at = now() where person_id = p_person and ended_at is null returning 1) select count(*)::integer from ended $$;

create function gate.memberships_of(p_person uuid)
  returns table (tenant_id uuid, slug text, company_name text, time_zone text, rule_set text, member_name text, roles text[])
  language sql stable security definer set search_path = ''
  as $$ select m.tenant_id, g.slug, c.name, c.time_zone, c.rule_set, m.name, m.roles
        from public.member m join gate.company g on g.id = m.tenant_id join public.company c on c.tenant_id = m.tenant_id
        where m.person_id = p_person and m.active order by c.name $$;

-- Invites into the company the transaction works for, never another.
create function gate.invite(p_id uuid, p_token_hash bytea, p_email text, p_name text, p_roles text[], p_by uuid, p_ttl_s integer)
  returns void language sql security definer set search_path = ''
  as $$ insert into gate.invitation (id, token_hash, company_id, email, name, roles, invited_by, expires_at)
        values (p_id, p_token_hash, public.app_tenant(), lower(p_email), p_name, p_roles, p_by, now() + make_interval(secs => p_ttl_s)) $$;

create function gate.list_invitations()
  returns table (id uuid, email text, name text, roles text[], created_at timestamptz, expires_at timestamptz)
  language sql stable security definer set search_path = ''
  as $$ select i.id, i.email, i.name, i.roles, i.created_at, i.expires_at from gate.invitation i
        where i.company_id = public.app_tenant() and i.used_at is null and i.withdrawn_at is null order by i.created_at desc $$;

create function gate.withdraw_invitation(p_id uuid)
  returns void language sql security definer set search_path = ''
  as $$ update gate.invitation set withdrawn_at = now() where id = p_id and company_id = public.app_tenant() and used_at is null $$;

create function gate.find_invitation(p_token_hash bytea)
  returns table (email text, name text, roles text[], company_name text, slug text, known_person boolean)
  language sql stable security definer set search_path = ''
  as $$ select i.email, i.name, i.roles, c.name, g.slug, exists (select 1 from gate.person p where p.email = i.email)
        from gate.invitation i join gate.company g on g.id = i.company_id join public.company c on c.tenant_id = i.company_id
        where i.token_hash = p_token_hash and i.used_at is null and i.withdrawn_at is null and i.expires_at > now() $$;

-- Takes an invitation once. A new person brings a password hash; a known one must already be signed in (p_person) under the invited address.
create function gate.accept_invitation(p_token_hash bytea, p_person uuid, p_new_person boolean, p_name text, p_password_hash text)
  returns text language plpgsql security definer set search_path = ''
  as $$
  declare
    inv gate.invitation;
  begin
    select * into inv from gate.invitation
      where token_hash = p_token_hash and used_at is null and withdrawn_at is null and expires_at > now() for update;
    if not found then return null; end if;
    if p_new_person then
      insert into gate.person (id, email, name, password_hash) values (p_person, inv.email, p_name, p_password_hash);
    elsif not exists (select 1 from gate.person where id = p_person and email = inv.email) then
      return null;
    end if;
    insert into public.member as m (tenant_id, person_id, name, email, roles) values (inv.company_id, p_person, p_name, inv.email, inv.roles)
      on conflict (tenant_id, person_id) do update
        set active = true, roles = (select array_agg(distinct r) from unnest(m.roles || excluded.roles) r);
    update gate.invitation set used_at = now() where id = inv.id;
    return (select slug from gate.company where id = inv.company_id);
  end $$;

revoke execute on all functions in schema gate from public;
grant execute on all functions in schema gate to dryhold_app;
