-- Revisions of results that were on record before anything was entered in the ledger: of any other
-- that no entry tells of, somebody added it. Empty where the ledger was there from the beginning.
create table ledger_older (
  chain    text collate "C" not null,                 -- stream/<identifier>
  subject  text not null,                             -- the result
  revision integer not null,
  primary key (chain, subject, revision)
);
-- By one pass over both, however little is known yet of how large they are.
set local enable_nestloop = off;
insert into ledger_older
select 'stream/' || r.stream_id, cast(r.result_id as text), r.revision
from result_revision r
left join (
  select chain, subject,
    cast(substring(content from '"revision":([0-9]{1,9}),"seal":') as integer) as revision
  from ledger_entry where action like 'result-%') told
  on told.chain = 'stream/' || r.stream_id and told.subject = cast(r.result_id as text)
    and told.revision = r.revision
where told.chain is null;
set local enable_nestloop = on;

create trigger append_only before update or delete or truncate on ledger_older
  for each statement execute function refuse_change_of_ledger();
revoke update, delete, truncate on ledger_older from public;
do $$
begin
  execute format('revoke update, delete, truncate on ledger_older from %I', current_user);
end $$;

-- Who adopted limits and changed results, among the many who recorded some.
create index ledger_entry_of_changes on ledger_entry (chain, seq)
  where action in ('limits-adopted', 'result-corrected', 'result-withdrawn', 'result-restated');
