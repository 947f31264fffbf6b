-- A known person brings no name of their own: the membership takes the one the office invited.

create or replace function gate.accept_invitation(p_token_hash bytea, p_person uuid, p_new_person boolean, p_name text, p_password_hash text)
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
    insert into public.member as m (tenant_id, person_id, name, email, roles) values (inv.company_id, p_person, coalesce(p_name, inv.name), inv.email, inv.roles)
      on conflict (tenant_id, person_id) do update
        set active = true, roles = (select array_agg(distinct r) from unnest(m.roles || excluded.roles) r);
    update gate.invitation set used_at = now() where id = inv.id;
    return (select slug from gate.company where id = inv.company_id);
  end $$;
