/** One lag tried: how much weight it carries and what was found there. */
export interface LagNode {
  readonly logLag: number;
  readonly logMass: number;
}

/** Gas follows the air within a minute (bare pipe) to well over an hour (large coil out of the wind). */
const SHORTEST_LAG_S = 60;
const LONGEST_LAG_S = 4800;
const COARSE_LAGS = 12;
const FINE = 1;
const NEGLIGIBLE = 9;
/** Too far below to be climbed, and too far to be looked at elsewhere. */
const HOPELESS = 15;
const NEVER = 40;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const MOST_NODES = 48;

/**
 * A row of lags, then golden sections around its peaks: with a fine gauge a single lag may fit, and be narrow.
 * @param most the best met under other causes; what stays hopelessly below it is not climbed
 * @param likely a lag that was best there
 */
export function climbLags<Node extends LagNode>(
  visit: (logLag: number) => Node,
  most: number,
  likely: number | null,
): Node[] {
  const gap = Math.log(LONGEST_LAG_S / SHORTEST_LAG_S) / (COARSE_LAGS - 1);
  const lags = Array.from({ length: COARSE_LAGS }, (_, index) => Math.log(SHORTEST_LAG_S) + index * gap);
  const first = likely === null ? [] : [visit(likely)];
  if (first.some(({ logMass }) => logMass < most - NEVER)) return first;
  const row = [...first, ...lags.filter((lag) => lag !== likely).map(visit)].sort((a, b) => a.logLag - b.logLag);
  const nodes = [...row];
  for (const [index, { logMass }] of row.entries()) {
    const before = row[index - 1];
    const after = row[index + 1];
    const least = Math.min(before?.logMass ?? logMass, after?.logMass ?? logMass);
    const isPeak = logMass >= (before?.logMass ?? logMass) && logMass >= (after?.logMass ?? logMass);
    if (!isPeak || logMass - least < FINE || logMass < most - HOPELESS) continue;
    nodes.push(...narrow(visit, (before ?? row[index]!).logLag, (after ?? row[index]!).logLag));
  }
  return nodes.sort((a, b) => a.logLag - b.logLag);
}

function narrow<Node extends LagNode>(visit: (logLag: number) => Node, from: number, to: number): Node[] {
  let low = from;
  let high = to;
  let left = visit(high - GOLDEN * (high - low));
  let right = visit(low + GOLDEN * (high - low));
  const met = [left, right];
  while (Math.abs(left.logMass - right.logMass) > 0.1 * FINE && high - low > 1e-4) {
    if (left.logMass > right.logMass) {
      high = right.logLag;
      right = left;
      left = visit(high - GOLDEN * (high - low));
      met.push(left);
    } else {
      low = left.logLag;
      left = right;
      right = visit(low + GOLDEN * (high - low));
      met.push(right);
    }
  }
  return met;
}

/** Halves the gaps that carry weight and over which it changes fast. */
export function fillLags<Node extends LagNode>(nodes: Node[], most: number, visit: (logLag: number) => Node): Node[] {
  for (let index = 0; index + 1 < nodes.length && nodes.length < MOST_NODES; ) {
    const here = nodes[index]!;
    const next = nodes[index + 1]!;
    const rough = Math.abs(here.logMass - next.logMass) > FINE;
    if (rough && Math.max(here.logMass, next.logMass) > most - NEGLIGIBLE && next.logLag - here.logLag > 1e-4)
      nodes.splice(index + 1, 0, visit((here.logLag + next.logLag) / 2));
    else index++;
  }
  return nodes;
}
