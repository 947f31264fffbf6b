-- What opens the work a person left unsent on a tablet when signing out: given to them alone, made once, never changed.

create table tablet_key (
  tenant_id uuid        not null default app_tenant(),
  person_id uuid        not null,
  key       bytea       not null check (octet_length(key) = 32),
  made_at   timestamptz not null default now(),
  primary key (tenant_id, person_id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id)
);
alter table tablet_key enable row level security;
alter table tablet_key force row level security;
create policy tenant_isolation on tablet_key using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()));
grant select, insert on tablet_key to dryhold_app;
