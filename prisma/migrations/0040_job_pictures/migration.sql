-- Photos and signatures of a job, apart from its log: the log names each by a salted hash, so that a picture can be erased and the log stays
-- whole. An erased one keeps its row without the picture and without the salt, by which alone the hash could be tried.

create table job_picture (
  tenant_id     uuid        not null default app_tenant(),
  id            uuid        not null,
  job_id        uuid        not null,
  person_id     uuid        not null,
  media_type    text        not null check (media_type in ('image/jpeg', 'image/png')),
  bytes         bytea       check (octet_length(bytes) between 1 and 1000000),
  salt          bytea       check (octet_length(salt) = 16),
  salted_digest bytea       not null check (octet_length(salted_digest) = 32),
  received_at   timestamptz not null default now(),
  erased_at     timestamptz,
  erased_by     uuid,
  primary key (tenant_id, id),
  foreign key (tenant_id, job_id) references circuit_job (tenant_id, id),
  foreign key (tenant_id, person_id) references member (tenant_id, person_id),
  foreign key (tenant_id, erased_by) references member (tenant_id, person_id),
  check ((bytes is null) = (salt is null) and (bytes is null) = (erased_at is not null) and (erased_at is null) = (erased_by is null))
);
create index on job_picture (tenant_id, job_id);

alter table job_picture enable row level security;
alter table job_picture force row level security;
create policy tenant_isolation on job_picture using (tenant_id = (select app_tenant())) with check (tenant_id = (select app_tenant()));
grant select, insert on job_picture to dryhold_app;
grant update (bytes, salt, erased_at, erased_by) on job_picture to dryhold_app;
