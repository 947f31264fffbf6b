/**
 * How the hold judgement does on thousands of simulated holds of known truth: `node --import tsx bench/hold-score.ts`,
 * with the number of holds (5000) and the first seed (10001: none that the tests keep).
 */
import { GAS_BALANCE_KINDS, gasBalanceHold } from "@/tests/hvac/hold/gas-balance/cases";
import { KIND_NAMES, simulateHold } from "@/tests/hvac/hold/simulator/cases";
import { MIXED_KIND_NAMES, simulateMixedHold } from "@/tests/hvac/hold/simulator/mixed-cases";
import { OTHER_KIND_NAMES, simulateOtherHold } from "@/tests/hvac/hold/simulator/other-cases";
import { reportLines, scoreHolds } from "@/tests/hvac/hold/simulator/score";

const total = Number(process.argv[2] ?? 5000);
const firstSeed = Number(process.argv[3] ?? 10_001);

for (const [name, kinds, simulate] of [
  ["integrated circuit", KIND_NAMES, simulateHold],
  ["closed forms", OTHER_KIND_NAMES, simulateOtherHold],
  ["every law with every gauge", MIXED_KIND_NAMES, simulateMixedHold],
  ["gas balance, held out", GAS_BALANCE_KINDS, gasBalanceHold],
] as const) {
  const score = scoreHolds(holdsOf(kinds, simulate));
  console.log(`\n${name}: ${score.cases} holds of ${kinds.length} kinds\n${reportLines(score).join("\n")}`);
  for (const [title, holds] of [
    ["passed falsely", score.falsePasses],
    ["accused", score.accused],
  ] as const)
    if (holds.length > 0) console.log(`${title}: ${holds.map(({ wire }) => wire.id).join("; ")}`);
}

function* holdsOf(kinds: readonly string[], simulate: typeof simulateHold) {
  const each = Math.ceil(total / 4 / kinds.length);
  for (const kind of kinds) for (let seed = firstSeed; seed < firstSeed + each; seed++) yield simulate(kind, seed);
}
