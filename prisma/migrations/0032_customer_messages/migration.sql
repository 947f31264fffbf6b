-- What customers are told of their visits: an outbox filled by the database in the transaction that changes a visit, so that no writer forgets,
-- and links by which whoever holds one may look at the state of a work order.

alter table customer add column may_write boolean not null default false;

create table customer_message (
  tenant_id   uuid        not null default app_tenant(),
  id          uuid        not null,
  visit_id    uuid        not null,
  kind        text        not null check (kind in ('plan', 'on-the-way')),
  state       text        not null default 'waiting' check (state in ('waiting', 'sending', 'sent', 'kept', 'dropped', 'failed', 'unsure')),
  made_at     timestamptz not null default now(),
  ended_at    timestamptz,
  said        text        check (said in ('promise', 'change', 'cancelled', 'on-the-way')),
  facts       jsonb,                                 -- what was told of the visit, to be held against what is true later
  to_address  text        not null default '',
  subject     text        not null default '',
  body        text        not null default '',
  why         text        not null default '',       -- a code: why it was dropped, put off or given up
  primary key (tenant_id, id),
  foreign key (tenant_id, visit_id) references visit (tenant_id, id)
);
create unique index customer_message_waiting on customer_message (tenant_id, visit_id, kind) where state = 'waiting';
create index on customer_message (tenant_id, visit_id, made_at);
alter table customer_message enable row level security;
alter table customer_message force row level security;
create policy tenant_isolation on customer_message using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()));
grant select, insert, update on customer_message to dryhold_app;

-- A change of the plan waits two minutes, for a dispatcher who drags on or takes back; what is said is made of what is true by then.
-- Nothing is written where no company is set: a restored backup or a migration tells nobody anything.
create function tell_customer() returns trigger language plpgsql as $$
  declare
    v_kind text;
    v_id uuid := gen_random_uuid();
    v_put uuid;
  begin
    if app_tenant() is null then return null; end if;
    if tg_op = 'UPDATE' and new.state = 'on-the-way' and old.state = 'planned' then
      v_kind := 'on-the-way';
    elsif new.state in ('planned', 'cancelled') and (tg_op = 'INSERT'
        or (new.state = 'cancelled') is distinct from (old.state = 'cancelled') or new.planned_start is distinct from old.planned_start
        or new.window_from is distinct from old.window_from or new.window_to is distinct from old.window_to) then
      v_kind := 'plan';
    else
      return null;
    end if;
    perform 1 from work_order o join service_call c on c.tenant_id = o.tenant_id and c.id = o.service_call_id
      join customer u on u.tenant_id = c.tenant_id and u.id = c.customer_id
      where o.id = new.work_order_id and u.may_write and u.email <> '';
    if not found then return null; end if;
    -- One message waits for a visit; taking its row makes a sender wait for this transaction and then see what it wrote.
    insert into customer_message (id, visit_id, kind) values (v_id, new.id, v_kind)
      on conflict (tenant_id, visit_id, kind) where state = 'waiting' do update set kind = excluded.kind
      returning id into v_put;
    if v_put = v_id then
      perform gate.put_job('send-message', v_id::text, now() + case v_kind when 'plan' then interval '2 minutes' else interval '0' end);
    end if;
    return null;
  end $$;
create trigger tell_customer after insert or update on visit for each row execute function tell_customer();

create table gate.status_link (
  token_hash     bytea       primary key check (octet_length(token_hash) = 32),
  id             uuid        not null unique,
  company_id     uuid        not null references gate.company (id),
  work_order_id  uuid        not null,
  made_at        timestamptz not null default now(),
  revoked_by     uuid        references gate.person (id),
  revoked_at     timestamptz,
  foreign key (company_id, work_order_id) references public.work_order (tenant_id, id)
);
create unique index on gate.status_link (company_id, work_order_id) where revoked_at is null;

-- The order's link that holds; null when there is none.
create function gate.status_link_of(p_order uuid)
  returns uuid language sql stable security definer set search_path = ''
  as $$ select l.id from gate.status_link l where l.company_id = public.app_tenant() and l.work_order_id = p_order and l.revoked_at is null $$;

-- Makes the order's link; the id of the one that holds, which is another where somebody was faster.
create function gate.make_status_link(p_id uuid, p_token_hash bytea, p_order uuid)
  returns uuid language plpgsql security definer set search_path = ''
  as $$ begin
    insert into gate.status_link (token_hash, id, company_id, work_order_id)
      values (p_token_hash, p_id, public.app_tenant(), p_order) on conflict do nothing;
    return gate.status_link_of(p_order);
  end $$;

create function gate.revoke_status_link(p_order uuid, p_by uuid)
  returns boolean language sql security definer set search_path = ''
  as $$ with revoked as (update gate.status_link set revoked_at = now(), revoked_by = p_by
          where company_id = public.app_tenant() and work_order_id = p_order and revoked_at is null returning 1)
        select exists (select 1 from revoked) $$;

create function gate.find_status_link(p_token_hash bytea)
  returns table (company_id uuid, company_name text, work_order_id uuid, revoked_at timestamptz)
  language sql stable security definer set search_path = ''
  as $$ select l.company_id, c.name, l.work_order_id, l.revoked_at
        from gate.status_link l join public.company c on c.tenant_id = l.company_id where l.token_hash = p_token_hash $$;

revoke execute on function gate.status_link_of(uuid), gate.make_status_link(uuid, bytea, uuid), gate.revoke_status_link(uuid, uuid), gate.find_status_link(bytea) from public;
grant execute on function gate.status_link_of(uuid), gate.make_status_link(uuid, bytea, uuid), gate.revoke_status_link(uuid, uuid), gate.find_status_link(bytea) to dryhold_app;
