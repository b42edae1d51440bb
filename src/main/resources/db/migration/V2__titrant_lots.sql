-- Titrant lots. A lot's standardisations are results of its strength stream, which stands under no
-- line, so that corrections, charts and signals of theirs come with it.
alter table stream alter column line drop not null;
create unique index stream_under_no_line on stream (slug) where line is null;

create table titrant_lot (
  slug              text primary key,
  reagent           text not null,
  nominal_normality double precision not null,
  prepared_on       date,
  opened_on         date,
  expires_on        date,                           -- the last day on which it is good
  version           integer not null,
  stream_id         uuid not null references stream (id)
);

-- The lot that the latest revision was titrated with; null for none on record.
alter table result add column titrant_lot text;
create index result_by_titrant_lot on result (titrant_lot, stream_id, sampled_at)
  where titrant_lot is not null;

-- What became of the results of a lot each time its strength was interpolated.
create table restatement (
  id           uuid primary key,
  lot          text not null references titrant_lot (slug),
  sampled_from timestamptz,                         -- null: all results of the lot
  reason       text not null,
  recorded_at  timestamptz not null,
  outcome      jsonb not null                       -- what changed, turned, stayed and was refused
);
create index restatement_by_lot on restatement (lot, id);
