-- What a baseline said about itself when limits were laid down from it, and which of its results were
-- left out, each with the cause. Null on every revision on record until now, and without a baseline.
alter table limits_revision
  add column diagnostics jsonb,
  add column excluded    jsonb;

-- Between which samples the change behind a signal lies, where its beginning is an estimate; null on
-- every signal on record until now.
alter table signal
  add column started_earliest timestamptz,
  add column started_latest   timestamptz;
