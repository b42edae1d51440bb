-- The first schema. Every table about a stream carries the stream's identifier first in its key, and
-- no constraint reaches from one stream to another, so that streams can live on different machines.
-- Nothing recorded is overwritten: corrections are further revisions.

create table line (
  slug                           text primary key,
  name                           text not null,
  alkali                         text not null,
  density15_kg_per_m3            double precision,  -- null: not given, the default is used and said
  density15_standard_uncertainty double precision,
  notes                          text,
  version                        integer not null
);

create table stream (
  id              uuid primary key,
  line            text not null references line (slug),
  slug            text not null,
  name            text not null,
  sampling_point  text not null,
  measurand       text not null,
  unit            text not null,
  dispersion      text not null,
  rules           text[] not null,
  version         integer not null,
  last_identifier uuid,                             -- the last identifier made under this row's lock
  unique (line, slug)
);

create table specification (
  stream_id   uuid not null references stream (id),
  number      integer not null,                     -- in order of recording; the later one wins
  valid_from  date,                                 -- null: ever since
  lower       double precision,
  upper       double precision,
  recorded_at timestamptz not null,
  primary key (stream_id, number)
);

-- Results as they were entered, and what was made of them, revision by revision.
create table result (
  stream_id   uuid not null references stream (id),
  id          uuid not null,
  batch       text not null,
  sampled_at  timestamptz not null,
  primary key (stream_id, id)
);
create index result_in_order on result (stream_id, sampled_at, id);
create index result_by_identifier on result (id);

create table result_revision (
  stream_id     uuid not null,
  result_id     uuid not null,
  revision      integer not null,
  recorded_at   timestamptz not null,
  reason        text,
  withdrawn     boolean not null,
  value         double precision not null,
  entered       jsonb not null,                     -- the readings as typed
  determination jsonb not null,                     -- figure, budget, verdict and cautions
  primary key (stream_id, result_id, revision),
  foreign key (stream_id, result_id) references result (stream_id, id)
);

-- What is charted: one point for each result, in the order of sampling, then of recording.
create table point (
  stream_id            uuid not null references stream (id),
  sampled_at           timestamptz not null,
  result_id            uuid not null,
  position             integer not null,            -- counting from 1
  batch                text not null,
  value                double precision not null,
  standard_uncertainty double precision,
  below_detection      boolean not null,
  primary key (stream_id, sampled_at, result_id)
);
create index point_by_position on point (stream_id, position);
create index point_by_result on point (stream_id, result_id);

create table limits_revision (
  stream_id      uuid not null references stream (id),
  revision       integer not null,
  status         text not null,                     -- trial or adopted
  origin         text not null,                     -- baseline, given or settings
  effective_from timestamptz,                       -- null: from the first result
  adopted_at     timestamptz not null,
  baseline_from  timestamptz,
  baseline_to    timestamptz,
  n              integer,
  centre         double precision not null,
  sigma          double precision not null,
  non_negative   boolean not null,
  dispersion     text,                             -- null: sigma was given
  rules          text[] not null,
  reason         text,
  primary key (stream_id, revision)
);

-- How a point was judged under a revision of the limits, with the state of the run rules after it:
-- the next point needs nothing else, and a late one goes on from the point before it.
create table evaluation (
  stream_id       uuid not null,
  sampled_at      timestamptz not null,
  result_id       uuid not null,
  limits_revision integer not null,
  rules           text[] not null,                  -- whose condition holds at this point
  run_state       jsonb not null,
  primary key (stream_id, sampled_at, result_id, limits_revision)
);

create table signal (
  stream_id       uuid not null references stream (id),
  id              uuid not null,
  rule            text not null,
  side            text not null,                    -- high, low or none
  limits_revision integer not null,
  result_id       uuid not null,                    -- at which it was raised
  opened_at       timestamptz not null,             -- when that sample was taken
  started_at      timestamptz not null,             -- estimated beginning of the change
  raised_at       timestamptz not null,
  first_window    uuid[] not null,
  last_result_id  uuid not null,
  last_sampled_at timestamptz not null,
  points          integer not null,
  text            text not null,
  lapsed_at       timestamptz,
  lapse_reason    text,
  primary key (stream_id, id)
);
create index signal_in_order on signal (stream_id, last_sampled_at);
create index signal_by_identifier on signal (id);
