-- Who is told what. A secret stands in clear, since messages are signed by it.
create table subscription (
  slug                text primary key,
  url                 text not null,
  secret              text not null,
  former_secret       text,                         -- signs as well until then
  former_secret_until timestamptz,
  lines               text[],                       -- null: all
  types               text[],                       -- null: all
  active              boolean not null,
  disabled_at         timestamptz,                  -- the receiver wanted no more
  disabled_reason     text,
  version             integer not null
);

-- What is told, recorded in the transaction of what it tells of. Identifiers rise within a stream in
-- the order of commits, since they are made under its lock; between streams they do not, so that a
-- number is given to each notice once it is committed.
create table notice (
  stream_id   uuid not null references stream (id),
  id          uuid not null,
  line        text,                                 -- null: a stream under no line
  type        text not null,
  about       uuid,                                 -- the signal or result it tells of
  recorded_at timestamptz not null,
  event       text not null,                        -- the CloudEvent, byte for byte as it is sent
  number      bigint,                               -- in the feed; null until it has one
  primary key (stream_id, id)
);
create index notice_without_number on notice (id) where number is null;
create unique index notice_by_number on notice (number) where number is not null;
create index notice_by_subject on notice (stream_id, about, type) where about is not null;

-- One row, locked by whoever gives numbers.
create table feed (
  single boolean primary key check (single),
  last bigint not null
);
insert into feed values (true, 0);

create table delivery (
  stream_id      uuid not null,
  subscription   text not null references subscription (slug),
  notice_id      uuid not null,
  state          text not null,                     -- waiting, delivered or parked
  attempts       integer not null,
  first_tried_at timestamptz,
  last_tried_at  timestamptz,
  last_status    integer,                           -- null: no answer
  last_problem   text,
  next_try_at    timestamptz,                       -- null unless it waits
  leased_until   timestamptz,                       -- until then it is somebody's to try
  delivered_at   timestamptz,
  primary key (stream_id, subscription, notice_id),
  foreign key (stream_id, notice_id) references notice (stream_id, id)
);
create index delivery_due on delivery (subscription, next_try_at) where state = 'waiting';
create index delivery_waiting on delivery (stream_id, subscription, notice_id)
  where state = 'waiting';
create index delivery_in_order on delivery (subscription, notice_id);
