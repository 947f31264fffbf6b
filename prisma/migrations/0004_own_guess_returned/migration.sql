-- A right password takes its own guess off the address it came from and no more: whoever owns one account
-- cannot clear the wrong guesses made at others from the same place.
create function gate.return_guess(p_key text)
  returns void language sql security definer set search_path = ''
  as $$ update gate.guess set failures = greatest(failures - 1, 0) where key = p_key $$;

revoke execute on function gate.return_guess(text) from public;
grant execute on function gate.return_guess(text) to dryhold_app;
