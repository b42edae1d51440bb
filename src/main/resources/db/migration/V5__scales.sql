-- The scale on which results are judged: limits keep the one they were laid down on. All on record
-- until now are linear.

alter table stream
  add column scale text not null default 'linear';

alter table limits_revision
  add column scale          text not null default 'linear',
  add column box_cox_lambda double precision;
