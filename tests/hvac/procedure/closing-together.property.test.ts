import { expect, test } from "vitest";
import { runRandomLogs } from "./random-log-run";

test("over random logs of several tablets that see each other late, nothing closes unproven and any order of arrival folds alike", () => {
  const tally = runRandomLogs("together", 50_000, 20261126);
  // The property says something only if many logs get there, and in each of the ways.
  expect(tally.closed).toBeGreaterThan(500);
  expect(tally.byOverride).toBeGreaterThan(20);
  expect(tally.review).toBeGreaterThan(2000);
}, 900_000);
