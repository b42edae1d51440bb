-- What went through a tower since its bed was new, or a flush since it began, as the latest revision
-- that counts says; null where nobody said.
alter table result
  add column throughput_litres      double precision,
  add column throughput_bed_volumes double precision;
create index result_by_throughput on result (stream_id, sampled_at, id)
  where throughput_litres is not null or throughput_bed_volumes is not null;

-- That a forecast was told to cross its limit soon; gone once it has moved away again.
create table foreseen_crossing (
  stream_id uuid primary key references stream (id),
  result_id uuid not null,                          -- the latest result when it was told
  told_at   timestamptz not null
);
