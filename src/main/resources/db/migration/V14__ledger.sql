-- Who changed what: entries that are only ever added, each with the hash of the one before it in its
-- chain. A stream is a chain, and so is whatever else has a lock of its own, so that no writer waits
-- for another's chain.
create table ledger_entry (
  chain         text collate "C" not null,          -- such as stream/<identifier> or line/<slug>
  seq           bigint not null check (seq > 0),    -- counts from 1 without a gap
  at            timestamptz not null,
  actor         text not null,                      -- a key's identifier, bench or service
  action        text not null,
  line          text,                               -- slug; null: of no line
  stream        text,                               -- slug; null: of no stream
  subject       text not null,                      -- what was changed
  content       text not null,                      -- canonical JSON (RFC 8785), byte for byte
  previous_hash text not null,                      -- 64 zeros for the first
  hash          text not null,
  primary key (chain, seq)
);

-- What no head tells of yet: the entries that a transaction ended with. Taken away by the one job
-- that makes heads, and no part of the record.
create table ledger_fresh (
  chain text collate "C" not null,
  seq   bigint not null,
  primary key (chain, seq)
);

-- How far the chains were at a time; each head holds the hash of the one before it, so that entries
-- missing at the end of a chain are missed.
create table ledger_head (
  number        bigint primary key check (number > 0),
  at            timestamptz not null,
  previous_hash text not null,
  hash          text not null
);

-- A chain that went on between a head and the one before it. An entry is read at the head that first
-- tells of it: by then it is committed, so that a reader who goes from head to head misses nothing.
-- No foreign key leads to the head: to check it, PostgreSQL needs the right to update heads.
create table ledger_head_chain (
  number    bigint not null,
  chain     text collate "C" not null,
  first_seq bigint not null,
  last_seq  bigint not null,
  hash      text not null,                          -- of the last entry
  line      text,                                   -- of the chain; null: of no line
  primary key (number, chain),
  check (first_seq between 1 and last_seq)
);
create unique index ledger_head_by_chain on ledger_head_chain (chain, last_seq);
create index ledger_head_by_line on ledger_head_chain (line, number, chain);

-- Nobody changes the ledger: not the service, whose role owns the tables and gives up the right to,
-- and by an oversight not even who may do everything.
create function refuse_change_of_ledger() returns trigger language plpgsql as $$
begin
  raise exception 'the ledger is only ever added to';
end $$;

create trigger append_only before update or delete or truncate on ledger_entry
  for each statement execute function refuse_change_of_ledger();
create trigger append_only before update or delete or truncate on ledger_head
  for each statement execute function refuse_change_of_ledger();
create trigger append_only before update or delete or truncate on ledger_head_chain
  for each statement execute function refuse_change_of_ledger();

revoke update, delete, truncate on ledger_entry, ledger_head, ledger_head_chain from public;
do $$
begin
  execute format(
    'revoke update, delete, truncate on ledger_entry, ledger_head, ledger_head_chain from %I',
    current_user);
end $$;
