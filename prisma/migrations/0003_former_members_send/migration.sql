-- A technician who left with unsent work still sends it: it waits in quarantine. Nothing else looks here.

create function gate.former_memberships_of(p_person uuid)
  returns table (tenant_id uuid, slug text, company_name text, time_zone text, rule_set text, member_name text, roles text[])
  language sql stable security definer set search_path = ''
  as $$ select m.tenant_id, g.slug, c.name, c.time_zone, c.rule_set, m.name, '{}'::text[]
        from public.member m join gate.company g on g.id = m.tenant_id join public.company c on c.tenant_id = m.tenant_id
        where m.person_id = p_person and not m.active order by c.name $$;

revoke execute on function gate.former_memberships_of(uuid) from public;
grant execute on function gate.former_memberships_of(uuid) to dryhold_app;
