-- What happened at a plant and may show in its results: written once, never changed. An event that
-- begins a new phase does so in the streams that it touches.
create table event (
  line        text not null references line (slug),
  id          uuid not null,
  kind        text not null,
  at          timestamptz not null,
  note        text,
  streams     text[] not null,                      -- slugs of the streams of the line that it touches
  new_phase   boolean not null,
  recorded_at timestamptz not null,
  primary key (line, id)
);
create index event_in_order on event (line, at, id);
create index event_by_identifier on event (id);

-- What somebody found out about a signal. A later finding takes the place of an earlier one, which
-- stays on record.
create table finding (
  stream_id   uuid not null,
  signal_id   uuid not null,
  number      integer not null,                     -- counting from 1
  cause       text not null,
  action      text,
  found_by    text not null,
  recorded_at timestamptz not null,
  excluded    uuid[] not null,                      -- results that later baselines leave out
  primary key (stream_id, signal_id, number),
  foreign key (stream_id, signal_id) references signal (stream_id, id)
);
