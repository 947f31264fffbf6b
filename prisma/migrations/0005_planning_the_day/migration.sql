-- What the planner knows of people's time and vans, of the company's limits, and of the roads.

-- A company's limits of working time and how people drive there; a company without a row works by the defaults of its rules.
create table planning_rule (
  tenant_id            uuid    primary key default app_tenant() references company (tenant_id),
  max_day_minutes      integer check (max_day_minutes between 60 and 1440),      -- first departure to last return
  max_overtime_minutes integer not null default 0 check (max_overtime_minutes between 0 and 720),
  max_week_minutes     integer check (max_week_minutes between 60 and 10080),
  min_rest_minutes     integer check (min_rest_minutes between 0 and 1440),      -- between two days of one person
  lunch_from_minute    integer check (lunch_from_minute between 0 and 1439),
  lunch_to_minute      integer check (lunch_to_minute between 0 and 1439),
  lunch_minutes        integer not null default 30 check (lunch_minutes between 0 and 180),
  start_slack_minutes  integer not null default 15 check (start_slack_minutes between 0 and 240),
  yard_latitude        double precision check (yard_latitude between -90 and 90),
  yard_longitude       double precision check (yard_longitude between -180 and 180),
  road_factor          double precision not null default 1.3 check (road_factor between 1 and 3),
  kmh_to_5_km          double precision not null default 25 check (kmh_to_5_km between 3 and 150),
  kmh_to_20_km         double precision not null default 40 check (kmh_to_20_km between 3 and 150),
  kmh_to_60_km         double precision not null default 60 check (kmh_to_60_km between 3 and 150),
  kmh_beyond           double precision not null default 80 check (kmh_beyond between 3 and 150),
  arriving_minutes     double precision not null default 3 check (arriving_minutes between 0 and 60),
  check ((yard_latitude is null) = (yard_longitude is null)),
  check ((lunch_from_minute is null) = (lunch_to_minute is null)),
  check (lunch_from_minute <= lunch_to_minute)
);

-- Hours of an ordinary week, minutes after local midnight; no hours on a day of the week: not at work.
create table weekly_shift (
  tenant_id     uuid    not null default app_tenant(),
  person_id     uuid    not null,
  weekday       integer not null check (weekday between 1 and 7),                -- Monday is 1, as in ISO 8601
  begins_minute integer check (begins_minute between 0 and 1439),
  ends_minute   integer check (ends_minute between 1 and 1440),
  primary key (tenant_id, person_id, weekday),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id),
  check ((begins_minute is null) = (ends_minute is null)),
  check (begins_minute < ends_minute)
);

-- Time that is not as in an ordinary week: away, or on call.
create table person_time (
  tenant_id    uuid        not null default app_tenant(),
  id           uuid        not null,
  person_id    uuid        not null,
  kind         text        not null check (kind in ('away', 'on-call')),
  from_at      timestamptz not null,
  to_at        timestamptz not null check (to_at > from_at),
  note         text        not null default '' check (length(note) <= 200),
  withdrawn_at timestamptz,
  primary key (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
create index on person_time (tenant_id, person_id, to_at) where withdrawn_at is null;

-- How a person goes out: from where, with whom, with how much room.
create table field_profile (
  tenant_id     uuid    not null default app_tenant(),
  person_id     uuid    not null,
  base_name     text    not null default '' check (length(base_name) <= 200),
  latitude      double precision check (latitude between -90 and 90),
  longitude     double precision check (longitude between -180 and 180),
  ends_at_base  boolean not null default true,
  is_apprentice boolean not null default false,
  rides_with    uuid,
  max_visits    integer check (max_visits between 1 and 50),
  primary key (tenant_id, person_id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id),
  foreign key (tenant_id, rides_with) references member (tenant_id, person_id),
  check ((latitude is null) = (longitude is null)),
  check (rides_with <> person_id)
);

create table van_stock (
  tenant_id uuid             not null default app_tenant(),
  person_id uuid             not null,
  part      text             not null check (length(part) between 1 and 120),
  quantity  double precision not null check (quantity >= 0),
  primary key (tenant_id, person_id, part),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);

-- What a visit asks of the plan beyond its time: how many people, and what the dispatcher has settled.
create table visit_demand (
  tenant_id        uuid    not null default app_tenant(),
  visit_id         uuid    not null,
  people_needed    integer not null default 1 check (people_needed between 1 and 2),
  pinned_to        uuid,
  is_start_pinned  boolean not null default false,
  preferred_person uuid,
  primary key (tenant_id, visit_id),
  foreign key (tenant_id, visit_id) references visit (tenant_id, id),
  foreign key (tenant_id, pinned_to) references member (tenant_id, person_id),
  foreign key (tenant_id, preferred_person) references member (tenant_id, person_id)
);

create table visit_part (
  tenant_id uuid             not null default app_tenant(),
  visit_id  uuid             not null,
  part      text             not null check (length(part) between 1 and 120),
  quantity  double precision not null check (quantity >= 0),
  primary key (tenant_id, visit_id, part),
  foreign key (tenant_id, visit_id) references visit (tenant_id, id)
);

-- What a road service answered, each direction for itself; places to the ten-thousandth of a degree (about 11 m).
create table travel_leg (
  tenant_id uuid        not null default app_tenant() references company (tenant_id),
  service   text        not null check (length(service) between 1 and 300),
  from_lat  integer     not null check (from_lat between -900000 and 900000),
  from_lon  integer     not null check (from_lon between -1800000 and 1800000),
  to_lat    integer     not null check (to_lat between -900000 and 900000),
  to_lon    integer     not null check (to_lon between -1800000 and 1800000),
  seconds   integer     not null check (seconds >= 0),
  asked_at  timestamptz not null default now(),
  primary key (tenant_id, service, from_lat, from_lon, to_lat, to_lon)
);

do $$
declare
  t text;
begin
  foreach t in array array['planning_rule','weekly_shift','person_time','field_profile','van_stock','visit_demand','visit_part','travel_leg'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format('create policy tenant_isolation on %I using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()))', t);
    execute format('grant select, insert, update on %I to dryhold_app', t);
  end loop;
end $$;
