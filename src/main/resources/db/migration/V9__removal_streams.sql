-- A stream after a wash or tower names the one before it, and the service keeps a stream of the
-- removal between both; that stream names its two sides. Null on every stream on record until now,
-- as none was kept.
alter table stream
  add column inlet  text,  -- slug within the line; on a removal stream null while it is not kept up
  add column outlet text;  -- slug within the line; null on every stream that is no removal stream

-- Removals are found batch by batch.
create index result_by_batch on result (stream_id, batch);
