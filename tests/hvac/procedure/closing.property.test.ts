import { expect, test } from "vitest";
import { runRandomLogs } from "./random-log-run";

test("over random logs nothing is closed without each required proof or an attested override, and any order of arrival folds alike", () => {
  const tally = runRandomLogs("alone", 50_000, 20261125);
  // The property says something only if many logs get there, and in each of the ways.
  expect(tally.closed).toBeGreaterThan(5000);
  expect(tally.byOverride).toBeGreaterThan(200);
  expect(tally.reopened).toBeGreaterThan(300);
}, 900_000);
