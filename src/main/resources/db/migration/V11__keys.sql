-- The keys by which callers are known. A key is never removed: its identifier stands beside what was
-- done with it.

create table api_key (
  id                text primary key,
  name              text not null,
  secret_sha256     text not null check (secret_sha256 ~ '^[0-9a-f]{64}$'),
  scopes            text[] not null,
  lines             text[],                         -- slugs; null: every line
  created_at        timestamptz not null,
  created_by        text,                           -- a caller; null: the service, at its start
  expires_at        timestamptz,                    -- null: never
  last_used_at      timestamptz,                    -- to the minute; null: never
  revoked_at        timestamptz,
  revoked_by        text,
  revocation_reason text
);
