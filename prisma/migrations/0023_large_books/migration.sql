-- Books of millions of lines: a cylinder's last weighing is one step down an index, what was done is listed the latest first.
create index posting_into_cylinder on posting (tenant_id, to_cylinder_id, posted_at desc) include (scale_grams) where to_cylinder_id is not null;
create index posting_out_of_cylinder on posting (tenant_id, from_cylinder_id, posted_at desc) include (scale_grams) where from_cylinder_id is not null;
create index duty_done on duty (tenant_id, done_on desc, circuit_id, code) where done_on is not null;
