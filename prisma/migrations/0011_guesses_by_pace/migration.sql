-- An account and an address are guessed at by different measures: behind one address sits a whole office whose typing errors add up,
-- so it has more free guesses and forgets them sooner. One wrong guess is forgotten per p_forget_s; beyond p_free the wait doubles, 2, 4,
-- 8 … seconds up to 15 minutes. The row lock makes a burst wait its turn.
drop function gate.take_guess(text);
create function gate.take_guess(p_key text, p_free integer, p_forget_s integer)
  returns integer language plpgsql security definer set search_path = ''
  as $$
  declare
    g gate.guess;
    wait_s integer;
  begin
    insert into gate.guess (key, failures, last_failed_at) values (p_key, 0, now()) on conflict (key) do nothing;
    select * into g from gate.guess where key = p_key for update;
    g.failures := greatest(0, least(g.failures, p_free + 9) - floor(extract(epoch from clock_timestamp() - g.last_failed_at) / p_forget_s));
    if g.failures >= p_free then
      wait_s := ceil(extract(epoch from g.last_failed_at + make_interval(secs => least(900, power(2, g.failures - p_free + 1))) - clock_timestamp()));
      if wait_s > 0 then return wait_s; end if;
    end if;
    update gate.guess set failures = g.failures + 1, last_failed_at = clock_timestamp() where key = p_key;
    return 0;
  end $$;

revoke execute on function gate.take_guess(text, integer, integer) from public;
grant execute on function gate.take_guess(text, integer, integer) to dryhold_app;
