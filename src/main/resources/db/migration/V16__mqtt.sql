-- One row: what the service and the MQTT broker know of each other.
create table mqtt (
  single       boolean primary key check (single),
  client_id    text not null,       -- letters and digits, 23 at most: every broker takes that (MQTT 3.1.1, 3.1.3.1)
  published    bigint,              -- the last notice that the broker took; null until one is configured
  holder       text,                -- the process that speaks with the broker, and until when
  leased_until timestamptz
);
insert into mqtt (single, client_id)
  values (true, 'sapotrace' || left(replace(gen_random_uuid()::text, '-', ''), 12));
