-- Moving averages and cumulative sums. Null: off, as on every stream and revision on record until
-- now, so that nothing that was judged is judged otherwise.

alter table stream
  add column ewma_lambda      double precision,
  add column ewma_width       double precision,
  add column cusum_reference  double precision,
  add column cusum_decision   double precision,
  add column cusum_head_start double precision;

alter table limits_revision
  add column ewma_lambda      double precision,
  add column ewma_width       double precision,
  add column cusum_reference  double precision,
  add column cusum_decision   double precision,
  add column cusum_head_start double precision;

-- The state of each after its point; null where it was off.
alter table evaluation
  add column ewma_state  jsonb,
  add column cusum_state jsonb;
