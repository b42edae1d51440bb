-- What was answered to requests that carried an Idempotency-Key, kept for a day: a repeat is answered
-- the same and carried out no second time.

create table remembered_answer (
  caller      text not null,
  operation   text not null,                        -- method and address
  key         text not null,
  fingerprint text not null,                        -- SHA-256 of the body
  asked_at    timestamptz not null,
  status      integer,                              -- null only within the transaction that asks
  location    text,
  body        text,
  primary key (caller, operation, key)
);
create index remembered_answer_by_age on remembered_answer (asked_at);
