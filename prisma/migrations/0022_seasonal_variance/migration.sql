-- An addition may be what was taken out in another season and comes back: said by an event on its day.
alter table law_event drop constraint law_event_kind_check;
alter table law_event add constraint law_event_kind_check check (kind in ('repair','initial-verification','follow-up-verification','normal-operation',
  'leak-inspection','leak-check','recheck','detection-check','detection-fitted','retrofit-plan','retrofit-done','chronic-report','seasonal-return',
  'records-given','withdrawn'));

-- Disposals and shipments are looked up by day.
create index refrigerant_document_by_day on refrigerant_document (tenant_id, on_day desc, id) where kind <> 'handover';
