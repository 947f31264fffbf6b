-- Links by which anyone holding a certificate may check it: only the hash of a link's secret part is kept, with what the paper says.
-- They are looked up before a company is known.

create table gate.certificate_link (
  token_hash  bytea       primary key check (octet_length(token_hash) = 32),
  id          uuid        not null unique,
  company_id  uuid        not null references gate.company (id),
  job_id      uuid        not null,
  digest      text        not null check (digest ~ '^[0-9a-f]{64}$'),
  strength    text        not null check (strength in ('strong', 'fair', 'weak', 'none')),
  verdicts    jsonb       not null,
  made_by     uuid        not null references gate.person (id),
  made_at     timestamptz not null default now(),
  revoked_by  uuid        references gate.person (id),
  revoked_at  timestamptz,
  foreign key (company_id, job_id) references public.circuit_job (tenant_id, id)
);
create index on gate.certificate_link (company_id, job_id);

-- Makes a link for the company the transaction works for; false when this very link is known already (a resend).
create function gate.make_certificate_link(p_id uuid, p_token_hash bytea, p_job uuid, p_digest text, p_strength text, p_verdicts jsonb, p_by uuid)
  returns boolean language sql security definer set search_path = ''
  as $$ with made as (
          insert into gate.certificate_link (token_hash, id, company_id, job_id, digest, strength, verdicts, made_by)
          values (p_token_hash, p_id, public.app_tenant(), p_job, p_digest, p_strength, p_verdicts, p_by)
          on conflict (token_hash) do nothing returning 1)
        select exists (select 1 from made) $$;

create function gate.list_certificate_links(p_job uuid)
  returns table (id uuid, digest text, made_by uuid, made_at timestamptz, revoked_by uuid, revoked_at timestamptz)
  language sql stable security definer set search_path = ''
  as $$ select l.id, l.digest, l.made_by, l.made_at, l.revoked_by, l.revoked_at from gate.certificate_link l
        where l.company_id = public.app_tenant() and l.job_id = p_job order by l.made_at desc, l.id $$;

-- Takes a link of this job back for good; false when it is not there or was taken back before.
create function gate.revoke_certificate_link(p_job uuid, p_id uuid, p_by uuid)
  returns boolean language sql security definer set search_path = ''
  as $$ with revoked as (
          update gate.certificate_link set revoked_at = now(), revoked_by = p_by
          where company_id = public.app_tenant() and job_id = p_job and id = p_id and revoked_at is null returning 1)
        select exists (select 1 from revoked) $$;

create function gate.find_certificate_link(p_token_hash bytea)
  returns table (company_id uuid, company_name text, job_id uuid, digest text, strength text, verdicts jsonb, revoked_at timestamptz)
  language sql stable security definer set search_path = ''
  as $$ select l.company_id, c.name, l.job_id, l.digest, l.strength, l.verdicts, l.revoked_at
        from gate.certificate_link l join public.company c on c.tenant_id = l.company_id where l.token_hash = p_token_hash $$;

revoke execute on function gate.make_certificate_link(uuid, bytea, uuid, text, text, jsonb, uuid), gate.list_certificate_links(uuid),
  gate.revoke_certificate_link(uuid, uuid, uuid), gate.find_certificate_link(bytea) from public;
grant execute on function gate.make_certificate_link(uuid, bytea, uuid, text, text, jsonb, uuid), gate.list_certificate_links(uuid),
  gate.revoke_certificate_link(uuid, uuid, uuid), gate.find_certificate_link(bytea) to dryhold_app;
