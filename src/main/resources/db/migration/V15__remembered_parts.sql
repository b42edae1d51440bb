-- What was answered to the parts of requests that carried an Idempotency-Key and are carried out part by
-- part, each in its own transaction: a repeat goes on behind the last part that was committed.

create table remembered_part (
  caller      text not null,
  operation   text not null,                        -- method and address
  key         text not null,
  part        integer not null,                     -- counting from 1
  fingerprint text not null,                        -- SHA-256 of the body up to the end of the part
  asked_at    timestamptz not null,                 -- of the first part, so that all go together
  answer      text,                                 -- null only within the transaction that asks
  primary key (caller, operation, key, part)
);
create index remembered_part_by_age on remembered_part (asked_at);
