import {
  bubblePressurePa,
  estimateLeakSize,
  findRefrigerant,
  type HoldJudgement,
  type HoldRecord,
  judgePulldown,
  type LeakSize,
  type PulldownJudgement,
  type PulldownRecord,
} from "@/lib/hvac";
import type { EntryContent, JobState, LogEntry } from "@/lib/hvac/procedure";
import { judges } from "@/lib/hvac/procedure";
import type { TraceId } from "@/lib/ids";
import type { KnownTrace } from "@/lib/sync/trace";
import { foldHere, foldWith } from "./fold";
import { followHold } from "./follow-hold";

export type Traces = ReadonlyMap<TraceId, KnownTrace>;

/** Everything the tablet has judged: the questions with their answers. */
export interface Judged {
  fold: { question: { entries: readonly LogEntry[] }; answer: JobState };
  "fold-with": { question: { entries: readonly LogEntry[]; content: EntryContent }; answer: JobState | null };
  hold: { question: HoldRecord; answer: HoldSaid };
  pulldown: { question: PulldownRecord; answer: PulldownJudgement };
  "pressure-test": {
    question: Parameters<typeof judges.pressureTest>[0];
    answer: ReturnType<typeof judges.pressureTest>;
  };
}
export type Asked = keyof Judged;

/** A judgement of a hold, and the smallest leak it could have shown put in other words. */
export interface HoldSaid {
  readonly judgement: HoldJudgement;
  readonly shown: (LeakSize & { readonly refrigerant: string }) | null;
}

/** Judges; its answers come of the question alone, and are heavy: on the tablet a worker calls it. Folds read the traces given beside the question. */
export function answer<A extends Asked>(asked: A, question: Judged[A]["question"], traces: Traces): Judged[A]["answer"];
export function answer(asked: Asked, question: unknown, traces: Traces): unknown {
  switch (asked) {
    case "fold":
      return foldHere((question as Judged["fold"]["question"]).entries, traces);
    case "fold-with": {
      const { entries, content } = question as Judged["fold-with"]["question"];
      return foldWith(entries, traces, content);
    }
    case "hold":
      return holdSaid(question as HoldRecord);
    case "pulldown":
      return judgePulldown(question as PulldownRecord);
    case "pressure-test":
      return judges.pressureTest(question as Judged["pressure-test"]["question"]);
  }
}

const judgeHoldOn = followHold();

function holdSaid(record: HoldRecord): HoldSaid {
  const judgement = judgeHoldOn(record);
  return { judgement, shown: sizeOf(judgement.smallestLeakShownPaPerS, record) };
}

/** Condensing on a mild day: where the high side of a charged circuit stands. [own choice] */
const OPERATING_K = 313.15;

/** The same leak as a flow into this volume, and as refrigerant lost once charged. */
function sizeOf(risePaPerS: number | null, { internalVolumeM3, refrigerant: name }: HoldRecord): HoldSaid["shown"] {
  const refrigerant = findRefrigerant(name);
  const operating = refrigerant && bubblePressurePa(refrigerant, OPERATING_K);
  if (!refrigerant || !operating?.ok || risePaPerS === null || !(risePaPerS > 0)) return null;
  const operatingPressureAbsPa = operating.value;
  const size = estimateLeakSize({ risePaPerS, internalVolumeM3, refrigerant, operatingPressureAbsPa });
  return { ...size, refrigerant: refrigerant.name };
}
