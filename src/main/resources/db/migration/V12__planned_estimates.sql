-- From how many results, counted from the first, limits are to be estimated once more: the next first.
-- Null or empty: they stay as they are.
alter table limits_revision
  add column reestimate_at integer[];
