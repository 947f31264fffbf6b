-- What the dashboards ask of a large company is answered from an index: they go neither through its closed jobs to find the few that
-- are not, nor to a row's own page for each outcome counted.

create index circuit_job_asking on circuit_job (tenant_id, changed_at) where asks_override;
create index circuit_job_not_closed on circuit_job (tenant_id, changed_at desc) where state <> 'closed';

drop index job_outcome_tenant_id_closed_on_job_id_idx;
drop index job_outcome_tenant_id_closed_on_idx;
create index job_outcome_closed on job_outcome (tenant_id, closed_on, job_id) include (strength, job_kind, unit_age, person_id, callback_on)
  where closed_on is not null;
create index job_outcome_returned on job_outcome (tenant_id, closed_on, job_id) include (strength, job_kind, unit_age, person_id, callback_on)
  where closed_on is not null and callback_on is not null;

-- Costs by cause of the confirmed, in the order their jobs are found.
drop index callback_tenant_id_origin_job_id_idx;
create index callback_of_job on callback (tenant_id, origin_job_id)
  include (state, cause_code, own_cause_id, work_hours, travel_cents, refrigerant_cents, parts_cents, goodwill_cents);
