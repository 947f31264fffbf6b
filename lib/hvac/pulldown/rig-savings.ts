import { CORES_IN_SHARE } from "./compare-rigs";
import { etaS, type Prospect } from "./forecast";
import type { PulldownReason, PulldownReasonCode, PulldownRecord } from "./record";
import type { PulldownTrace } from "./trace";

/** Every how many prospects are run on with the other rig. */
const EVERY = 8;

/** What taking the cores out, or hoses of twice the bore, would save from here on, where it is worth the stop. */
export function rigSavings(
  record: PulldownRecord,
  trace: PulldownTrace,
  prospects: readonly Prospect[],
  etaNowS: number | null,
): PulldownReason[] {
  const tried = prospects.filter((_, index) => index % EVERY === 0);
  const told = (code: PulldownReasonCode, change: string, viscousTimes: number, molecularTimes: number) => {
    const etas = tried.map(({ plant, now }) => {
      const wider = { ...plant, viscous: plant.viscous * viscousTimes, molecular: plant.molecular * molecularTimes };
      return etaS(record, trace, wider, { ...now }) ?? Number.POSITIVE_INFINITY;
    });
    const changedS = etas.sort((a, b) => a - b)[etas.length >> 1]!;
    const savedS = (etaNowS ?? Number.POSITIVE_INFINITY) - changedS;
    if (!(savedS > Math.max(120, 0.25 * changedS))) return [];
    const instead = etaNowS === null ? "where it now does not get there" : `instead of ${minutes(etaNowS)}`;
    return [{ code, text: `${change} it would take about ${minutes(changedS)} from here, ${instead}.` }];
  };
  return [
    ...(record.valveCoresRemoved
      ? []
      : told("cores-out-save", "With the valve cores out", 1 / CORES_IN_SHARE, 1 / CORES_IN_SHARE)),
    ...told("wider-hoses-save", "With hoses of twice the bore", 16, 8),
  ];
}

function minutes(seconds: number): string {
  return `${Math.max(1, Math.round(seconds / 60))} min`;
}
