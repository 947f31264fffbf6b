-- Where every gram went: double entry by mass, append-only. Balances, monthly flows and a cylinder's contents are kept by triggers, so
-- that no writer can forget; one company's postings wait for each other, so that none is lost and no two can wait in a circle.

-- ---------------------------------------------------------------- the books

-- The paper behind postings the office makes: a purchase, a shipment, a disposal, a hand-over of a cylinder between van and shop.
create table refrigerant_document (
  tenant_id   uuid        not null default app_tenant(),
  id          uuid        not null,
  kind        text        not null check (kind in ('purchase','return','decant','shipment','reclaimed','destruction','settled','handover','disposal','import')),
  party       text        not null default '' check (length(party) <= 200),   -- supplier, reclaimer, final processor
  number      text        not null default '' check (length(number) <= 100),  -- invoice, manifest, certificate
  note        text        not null default '' check (length(note) <= 2000),
  on_day      date        not null,
  cylinder_id uuid,
  circuit_id  uuid,
  to_person   uuid,                                                           -- of a hand-over; none is the shop
  made_by     uuid        not null,
  made_at     timestamptz not null default now(),
  primary key (tenant_id, id),
  foreign key (tenant_id, cylinder_id) references cylinder (tenant_id, id),
  foreign key (tenant_id, circuit_id) references circuit (tenant_id, id),
  foreign key (tenant_id, to_person) references member (tenant_id, person_id),
  foreign key (tenant_id, made_by) references member (tenant_id, person_id)
);
create index on refrigerant_document (tenant_id, made_at desc);
create index on refrigerant_document (tenant_id, cylinder_id, made_at desc);

create table posting (
  tenant_id        uuid        not null default app_tenant(),
  id               uuid        not null,
  happened_on      date        not null,   -- the site's day
  posted_at        timestamptz not null default now(),
  refrigerant      text        not null check (length(refrigerant) between 1 and 40),
  grams            bigint      not null check (grams > 0),
  from_kind        text        not null check (from_kind in ('before','supplier','cylinder','circuit','unnamed','reclaimer','destroyed','loss')),
  from_cylinder_id uuid        check ((from_kind = 'cylinder') = (from_cylinder_id is not null)),
  from_circuit_id  uuid        check ((from_kind = 'circuit') = (from_circuit_id is not null)),
  to_kind          text        not null check (to_kind in ('before','supplier','cylinder','circuit','unnamed','reclaimer','destroyed','loss')),
  to_cylinder_id   uuid        check ((to_kind = 'cylinder') = (to_cylinder_id is not null)),
  to_circuit_id    uuid        check ((to_kind = 'circuit') = (to_circuit_id is not null)),
  cause            text        not null check (cause in ('opening','counted','recovery','charge','found-short','purchase','return','decant',
                                                          'shipment','reclaimed','destruction','past-addition','release','settled')),
  owner_id         uuid,                   -- whose it is: the customer whose circuit it came out of
  scale_grams      bigint      check (scale_grams >= 0),
  source_key       text        not null check (length(source_key) <= 200),    -- a source is posted once
  reverses         uuid,
  job_id           uuid,
  entry_id         uuid,
  document_id      uuid,
  person_id        uuid,
  primary key (tenant_id, id),
  unique (tenant_id, source_key),
  unique (tenant_id, reverses),
  foreign key (tenant_id, from_cylinder_id) references cylinder (tenant_id, id),
  foreign key (tenant_id, to_cylinder_id) references cylinder (tenant_id, id),
  foreign key (tenant_id, from_circuit_id) references circuit (tenant_id, id),
  foreign key (tenant_id, to_circuit_id) references circuit (tenant_id, id),
  foreign key (tenant_id, owner_id) references customer (tenant_id, id),
  foreign key (tenant_id, reverses) references posting (tenant_id, id),
  foreign key (tenant_id, job_id) references circuit_job (tenant_id, id),
  foreign key (tenant_id, entry_id) references entry (tenant_id, id),
  foreign key (tenant_id, document_id) references refrigerant_document (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
create index on posting (tenant_id, from_circuit_id, happened_on) where from_circuit_id is not null;
create index on posting (tenant_id, to_circuit_id, happened_on) where to_circuit_id is not null;
create index on posting (tenant_id, from_cylinder_id, happened_on) where from_cylinder_id is not null;
create index on posting (tenant_id, to_cylinder_id, happened_on) where to_cylinder_id is not null;
create index on posting (tenant_id, job_id) where job_id is not null;
create index on posting (tenant_id, happened_on desc, posted_at desc, id);

-- What each place holds. Places without an id have one of zeros.
create table refrigerant_balance (
  tenant_id   uuid   not null default app_tenant(),
  place_kind  text   not null,
  place_id    uuid   not null,
  refrigerant text   not null,
  grams       bigint not null,
  owners      uuid[] not null default '{}',  -- whose recovered refrigerant is in a cylinder, until it is empty
  primary key (tenant_id, place_kind, place_id, refrigerant)
);
create index on refrigerant_balance (tenant_id, place_kind) where grams < 0;

-- What flowed between kinds of places in a month; a reversal counts against its own flow.
create table refrigerant_month (
  tenant_id   uuid    not null default app_tenant() references company (tenant_id),
  month       date    not null,
  from_kind   text    not null,
  to_kind     text    not null,
  refrigerant text    not null,
  grams       bigint  not null,
  postings    integer not null,
  primary key (tenant_id, month, from_kind, to_kind, refrigerant)
);

-- Room or stock promised; held under the cylinder's row lock, so that no two promises pass its fill limit together.
create table cylinder_reservation (
  tenant_id   uuid        not null default app_tenant(),
  id          uuid        not null,
  cylinder_id uuid        not null,
  direction   text        not null check (direction in ('in','out')),
  refrigerant text        not null check (length(refrigerant) between 1 and 40),
  grams       bigint      not null check (grams > 0),
  customer_id uuid,
  purpose     text        not null default '' check (length(purpose) <= 200),
  until_day   date        not null,
  made_by     uuid        not null,
  made_at     timestamptz not null default now(),
  ended_at    timestamptz,
  primary key (tenant_id, id),
  foreign key (tenant_id, cylinder_id) references cylinder (tenant_id, id),
  foreign key (tenant_id, customer_id) references customer (tenant_id, id),
  foreign key (tenant_id, made_by) references member (tenant_id, person_id)
);
create index on cylinder_reservation (tenant_id, cylinder_id) where ended_at is null;

create function keep_refrigerant_books() returns trigger language plpgsql as $$
  declare
    nowhere constant uuid := '00000000-0000-0000-0000-000000000000';
  begin
    perform pg_advisory_xact_lock(hashtextextended('ledger:' || t.tenant_id, 0))
      from (select distinct tenant_id from added order by tenant_id) t;
    insert into refrigerant_balance as b (tenant_id, place_kind, place_id, refrigerant, grams)
      select tenant_id, kind, place, refrigerant, sum(moved)::bigint from (
        select tenant_id, from_kind as kind, coalesce(from_cylinder_id, from_circuit_id, nowhere) as place, refrigerant, -grams as moved from added
        union all
        select tenant_id, to_kind, coalesce(to_cylinder_id, to_circuit_id, nowhere), refrigerant, grams from added) m
      group by tenant_id, kind, place, refrigerant
      on conflict (tenant_id, place_kind, place_id, refrigerant) do update set grams = b.grams + excluded.grams;
    update refrigerant_balance b
      set owners = (select array_agg(distinct o) from unnest(b.owners || r.owners) o)
      from (select tenant_id, to_cylinder_id, refrigerant, array_agg(distinct owner_id) as owners from added
            where to_cylinder_id is not null and owner_id is not null and reverses is null group by 1, 2, 3) r
      where b.tenant_id = r.tenant_id and b.place_kind = 'cylinder' and b.place_id = r.to_cylinder_id and b.refrigerant = r.refrigerant;
    update refrigerant_balance b set owners = '{}'
      from (select tenant_id, from_cylinder_id from added where from_cylinder_id is not null) r
      where b.tenant_id = r.tenant_id and b.place_kind = 'cylinder' and b.place_id = r.from_cylinder_id and b.grams <= 0 and b.owners <> '{}';
    insert into refrigerant_month as m (tenant_id, month, from_kind, to_kind, refrigerant, grams, postings)
      select tenant_id, date_trunc('month', happened_on)::date, case when reverses is null then from_kind else to_kind end,
             case when reverses is null then to_kind else from_kind end, refrigerant,
             sum(case when reverses is null then grams else -grams end)::bigint, sum(case when reverses is null then 1 else -1 end)::integer
      from added group by 1, 2, 3, 4, 5
      on conflict (tenant_id, month, from_kind, to_kind, refrigerant)
      do update set grams = m.grams + excluded.grams, postings = m.postings + excluded.postings;
    -- what the register shows of a cylinder follows the books
    update cylinder c
      set contents_kg = greatest(0, held.grams) / 1000.0,
          contents = case when c.contents = 'empty' and held.grams > 0 then
            case when held.what in ('mixed', 'unknown') then 'mixed-or-unknown' when held.recovered then 'recovered' else 'new' end else c.contents end,
          refrigerant = case when c.contents = 'empty' and held.grams > 0 then
            case when held.what in ('mixed', 'unknown') then null else held.what end else c.refrigerant end
      from (select b.tenant_id, b.place_id, sum(b.grams)::bigint as grams, (array_agg(b.refrigerant order by b.grams desc))[1] as what,
                   bool_or(b.owners <> '{}') as recovered
            from refrigerant_balance b
            where b.place_kind = 'cylinder' and (b.tenant_id, b.place_id) in
              (select tenant_id, from_cylinder_id from added where from_cylinder_id is not null
               union select tenant_id, to_cylinder_id from added where to_cylinder_id is not null)
            group by 1, 2) held
      where c.tenant_id = held.tenant_id and c.id = held.place_id;
    return null;
  end $$;
create trigger keep_books after insert on posting referencing new table as added for each statement execute function keep_refrigerant_books();

-- ---------------------------------------------------------------- what is there when the books meet it

-- A mass typed into the register is a count: the books are brought to it by a posting that says so.
create function post_counted_cylinder() returns trigger language plpgsql as $$
  declare
    v_name text := case when new.contents = 'mixed-or-unknown' then 'mixed' else coalesce(new.refrigerant, 'unknown') end;
    v_cause text := case when tg_op = 'INSERT' then 'opening' else 'counted' end;
    v_wanted bigint := round(new.contents_kg * 1000);
    v_off record;
  begin
    perform pg_advisory_xact_lock(hashtextextended('ledger:' || new.tenant_id, 0));
    for v_off in
      select coalesce(b.refrigerant, v_name) as refrigerant,
             coalesce(b.grams, 0) - case when coalesce(b.refrigerant, v_name) = v_name then v_wanted else 0 end as grams
      from (select v_name as name) n full join
           (select refrigerant, grams from refrigerant_balance
            where tenant_id = new.tenant_id and place_kind = 'cylinder' and place_id = new.id) b on b.refrigerant = n.name
    loop
      if v_off.grams > 0 then
        insert into posting (tenant_id, id, happened_on, refrigerant, grams, from_kind, from_cylinder_id, to_kind, cause, source_key)
          values (new.tenant_id, gen_random_uuid(), now()::date, v_off.refrigerant, v_off.grams, 'cylinder', new.id, 'before', v_cause, v_cause || ':' || gen_random_uuid());
      elsif v_off.grams < 0 then
        insert into posting (tenant_id, id, happened_on, refrigerant, grams, from_kind, to_kind, to_cylinder_id, cause, source_key)
          values (new.tenant_id, gen_random_uuid(), now()::date, v_off.refrigerant, -v_off.grams, 'before', 'cylinder', new.id, v_cause, v_cause || ':' || gen_random_uuid());
      end if;
    end loop;
    return null;
  end $$;
create trigger post_counted_new after insert on cylinder for each row when (new.contents_kg > 0) execute function post_counted_cylinder();
create trigger post_counted after update of contents_kg, refrigerant, contents on cylinder for each row
  when (pg_trigger_depth() = 0 and (old.contents_kg, old.refrigerant, old.contents) is distinct from (new.contents_kg, new.refrigerant, new.contents))
  execute function post_counted_cylinder();

create function circuit_refrigerant(p_state text, p_actual text, p_nameplate text) returns text
  language sql immutable parallel safe
  return case when p_state = 'mixed' then 'mixed' else coalesce(p_actual, p_nameplate, 'unknown') end;

-- A circuit comes into the books with its factory charge.
create function post_circuit_opening() returns trigger language plpgsql as $$
  begin
    insert into posting (tenant_id, id, happened_on, refrigerant, grams, from_kind, to_kind, to_circuit_id, cause, source_key)
      select tenant_id, gen_random_uuid(), now()::date, circuit_refrigerant(refrigerant_state, actual_refrigerant, nameplate_refrigerant),
             round(factory_charge_kg * 1000), 'before', 'circuit', id, 'opening', 'opening:' || id
      from added where round(factory_charge_kg * 1000) >= 1;
    return null;
  end $$;
create trigger post_opening after insert on circuit referencing new table as added for each statement execute function post_circuit_opening();

-- While nothing else moved in it, a circuit's opening follows what the register learns about it.
create function post_circuit_corrected() returns trigger language plpgsql as $$
  declare
    v_stands record;
  begin
    if exists (select from posting where tenant_id = new.tenant_id and cause <> 'opening' and (from_circuit_id = new.id or to_circuit_id = new.id)) then
      return null;
    end if;
    perform pg_advisory_xact_lock(hashtextextended('ledger:' || new.tenant_id, 0));
    for v_stands in select refrigerant, grams from refrigerant_balance
        where tenant_id = new.tenant_id and place_kind = 'circuit' and place_id = new.id and grams > 0 loop
      insert into posting (tenant_id, id, happened_on, refrigerant, grams, from_kind, from_circuit_id, to_kind, cause, source_key)
        values (new.tenant_id, gen_random_uuid(), now()::date, v_stands.refrigerant, v_stands.grams, 'circuit', new.id, 'before', 'opening', 'opening:' || gen_random_uuid());
    end loop;
    if round(new.factory_charge_kg * 1000) >= 1 then
      insert into posting (tenant_id, id, happened_on, refrigerant, grams, from_kind, to_kind, to_circuit_id, cause, source_key)
        values (new.tenant_id, gen_random_uuid(), now()::date, circuit_refrigerant(new.refrigerant_state, new.actual_refrigerant, new.nameplate_refrigerant),
                round(new.factory_charge_kg * 1000), 'before', 'circuit', new.id, 'opening', 'opening:' || gen_random_uuid());
    end if;
    return null;
  end $$;
create trigger post_opening_corrected after update of factory_charge_kg, actual_refrigerant, nameplate_refrigerant, refrigerant_state on circuit
  for each row when ((old.factory_charge_kg, old.actual_refrigerant, old.nameplate_refrigerant, old.refrigerant_state)
    is distinct from (new.factory_charge_kg, new.actual_refrigerant, new.nameplate_refrigerant, new.refrigerant_state))
  execute function post_circuit_corrected();

do $$
declare
  t text;
begin
  foreach t in array array['refrigerant_document','posting','refrigerant_balance','refrigerant_month','cylinder_reservation'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format('create policy tenant_isolation on %I using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()))', t);
    execute format('grant select, insert on %I to dryhold_app', t);
  end loop;
end $$;
grant update on refrigerant_balance, refrigerant_month, cylinder_reservation to dryhold_app;
grant execute on function circuit_refrigerant(text, text, text) to dryhold_app;

-- What the registers held before there were books.
insert into posting (tenant_id, id, happened_on, refrigerant, grams, from_kind, to_kind, to_cylinder_id, cause, source_key)
  select tenant_id, gen_random_uuid(), now()::date, case when contents = 'mixed-or-unknown' then 'mixed' else coalesce(refrigerant, 'unknown') end,
         round(contents_kg * 1000), 'before', 'cylinder', id, 'opening', 'opening:' || id
  from cylinder where round(contents_kg * 1000) >= 1;
insert into posting (tenant_id, id, happened_on, refrigerant, grams, from_kind, to_kind, to_circuit_id, cause, source_key)
  select tenant_id, gen_random_uuid(), now()::date, circuit_refrigerant(refrigerant_state, actual_refrigerant, nameplate_refrigerant),
         round(factory_charge_kg * 1000), 'before', 'circuit', id, 'opening', 'opening:' || id
  from circuit where round(factory_charge_kg * 1000) >= 1;
