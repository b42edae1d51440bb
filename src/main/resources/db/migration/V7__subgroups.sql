-- Subgroups: results of several values, charted by mean and range or standard deviation. All streams
-- and limits on record until now are of single results.

alter table stream
  add column subgroup_size integer not null default 1;

-- Limits keep the size they were laid down for.
alter table limits_revision
  add column subgroup_size integer not null default 1;

-- The values of a subgroup, of which "value" is the mean: size, range and standard deviation come
-- from them, on whatever scale. Null for a single value, as of every point on record until now.
alter table point
  add column subgroup_values double precision[];
