-- Instruments that send their readings by themselves. Each has a secret bound to one company and one tool, of which only the hash is kept; it
-- is looked up before a company is known. What came is kept as it came, a batch at a time, and never changed.

create table gate.instrument_token (
  token_hash bytea       primary key check (octet_length(token_hash) = 32),
  id         uuid        not null unique,
  company_id uuid        not null references gate.company (id),
  tool_id    uuid        not null,
  made_by    uuid        not null references gate.person (id),
  made_at    timestamptz not null default now(),
  revoked_by uuid        references gate.person (id),
  revoked_at timestamptz,
  foreign key (company_id, tool_id) references public.tool (tenant_id, id)
);
create index on gate.instrument_token (company_id, tool_id);

create function gate.make_instrument_token(p_id uuid, p_token_hash bytea, p_tool uuid, p_by uuid)
  returns void language sql security definer set search_path = ''
  as $$ insert into gate.instrument_token (token_hash, id, company_id, tool_id, made_by)
        values (p_token_hash, p_id, public.app_tenant(), p_tool, p_by) $$;

create function gate.list_instrument_tokens(p_tool uuid)
  returns table (id uuid, made_by uuid, made_at timestamptz, revoked_at timestamptz)
  language sql stable security definer set search_path = ''
  as $$ select t.id, t.made_by, t.made_at, t.revoked_at from gate.instrument_token t
        where t.company_id = public.app_tenant() and t.tool_id = p_tool order by t.made_at desc, t.id $$;

-- Takes a token of this tool back for good; false when it is not there or was taken back before.
create function gate.revoke_instrument_token(p_tool uuid, p_id uuid, p_by uuid)
  returns boolean language sql security definer set search_path = ''
  as $$ with revoked as (
          update gate.instrument_token set revoked_at = now(), revoked_by = p_by
          where company_id = public.app_tenant() and tool_id = p_tool and id = p_id and revoked_at is null returning 1)
        select exists (select 1 from revoked) $$;

create function gate.find_instrument_token(p_token_hash bytea)
  returns table (company_id uuid, tool_id uuid)
  language sql stable security definer set search_path = ''
  as $$ select t.company_id, t.tool_id from gate.instrument_token t where t.token_hash = p_token_hash and t.revoked_at is null $$;

revoke execute on function gate.make_instrument_token(uuid, bytea, uuid, uuid), gate.list_instrument_tokens(uuid),
  gate.revoke_instrument_token(uuid, uuid, uuid), gate.find_instrument_token(bytea) from public;
grant execute on function gate.make_instrument_token(uuid, bytea, uuid, uuid), gate.list_instrument_tokens(uuid),
  gate.revoke_instrument_token(uuid, uuid, uuid), gate.find_instrument_token(bytea) to dryhold_app;

create table instrument_batch (
  tenant_id   uuid        not null default app_tenant(),
  tool_id     uuid        not null,
  key         text        not null check (length(key) between 1 and 100), -- the sender's own number for it: sent again it is the same batch
  digest      bytea       not null check (octet_length(digest) = 32),
  unit        text        not null check (unit in ('micron', 'Pa', 'mbar', 'Torr', 'kPa', 'psi', 'bar')),
  from_at     timestamptz not null,
  to_at       timestamptz not null check (to_at >= from_at),
  readings    jsonb       not null,
  received_at timestamptz not null default now(),
  primary key (tenant_id, tool_id, key),
  foreign key (tenant_id, tool_id) references tool (tenant_id, id)
);
create index on instrument_batch (tenant_id, tool_id, to_at);
create index on instrument_batch (tenant_id, tool_id, received_at);

alter table instrument_batch enable row level security;
alter table instrument_batch force row level security;
create policy tenant_isolation on instrument_batch using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()));
grant select, insert on instrument_batch to dryhold_app;
