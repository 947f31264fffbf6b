-- The dispatcher's board: what was changed together is found together, to be taken back together; and absences are told as they come.

create index office_event_change on office_event (tenant_id, (detail ->> 'change')) where detail ? 'change';

create trigger tell_change after insert or update on person_time for each row execute function tell_change('away');
