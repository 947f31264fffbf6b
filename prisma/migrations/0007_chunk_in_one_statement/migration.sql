-- One chunk of a trace in one statement, so that a tablet's hours cost the server one round trip and one commit each.
-- Runs with the caller's rights, under the company it is given, and locks the job: an entry on its way at the same time either sees the
-- chunk or is seen here. Where an entry names the trace already, `p_when_named` says whether to go on: the job must then be folded again
-- in the same transaction.

create function store_chunk(p_company uuid, p_job uuid, p_trace uuid, p_person uuid, p_index integer, p_count integer,
                            p_packed bytea, p_digest bytea, p_when_named boolean)
  returns text
  language plpgsql
  as $$
  declare
    is_named boolean;
  begin
    perform set_config('app.tenant_id', p_company::text, true);
    perform 1 from circuit_job where id = p_job for update;
    if not found then return 'not-found'; end if;
    select exists (select 1 from entry where job_id = p_job and kind = 'step-recorded'
                   and wire #>> '{body,evidence,record,trace,traceId}' = p_trace::text) into is_named;
    if is_named and not p_when_named then return 'named'; end if;

    insert into trace (id, job_id, person_id) values (p_trace, p_job, p_person) on conflict do nothing;
    if not found then
      perform 1 from trace where id = p_trace and job_id = p_job;
      if not found then return 'not-found'; end if;
    end if;
    insert into trace_chunk (trace_id, chunk_index, sample_count, packed, digest)
      values (p_trace, p_index, p_count, p_packed, p_digest) on conflict do nothing;
    if found then return case when is_named then 'added-late' else 'added' end; end if;
    perform 1 from trace_chunk where trace_id = p_trace and chunk_index = p_index and digest = p_digest;
    return case when found then 'known' else 'used-otherwise' end;
  end $$;
