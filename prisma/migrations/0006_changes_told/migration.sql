-- What changed is told to the web processes once it is committed: company, kind and id, nothing else of the row.
-- Identical notices of one transaction are sent once; nobody listening costs nothing but the commit.

create function tell_change() returns trigger
  language plpgsql
  as $$
  begin
    perform pg_notify('dryhold_change', concat_ws(' ', new.tenant_id, tg_argv[0], new.id));
    return null;
  end $$;

do $$
declare
  told constant text[][] := array[['circuit_job','job'], ['visit','visit'], ['service_call','call'], ['work_order','order'],
                                  ['quarantine','quarantine'], ['tool','tool'], ['cylinder','cylinder']];
  pair text[];
begin
  foreach pair slice 1 in array told loop
    execute format('create trigger tell_change after insert or update on %I for each row execute function tell_change(%L)', pair[1], pair[2]);
  end loop;
end $$;
