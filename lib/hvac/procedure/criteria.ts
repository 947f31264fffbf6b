import type {
  CircuitFacts,
  CriteriaRow,
  CriteriaStep,
  EvacuateCriteria,
  HoldCriteria,
  LeakCheckCriteria,
  PressureTestCriteria,
} from "../log/entry";
import type { Mark } from "../rules/source";

export interface CriteriaByStep {
  readonly evacuate: EvacuateCriteria;
  readonly hold: HoldCriteria;
  readonly pressure_test: PressureTestCriteria;
  readonly leak_check: LeakCheckCriteria;
}

/** The criteria in force for one step, with where they come from. */
export interface CriteriaInForce<S extends CriteriaStep> {
  readonly values: CriteriaByStep[S];
  readonly sources: readonly string[];
  /** The maker asks for less than our default: the proof is then at most fair. */
  readonly makerIsLooser: boolean;
  /** Rows that would have loosened what only may be tightened. */
  readonly ignored: readonly CriteriaRow[];
}

const DEFAULT_SOURCES: Readonly<Record<CriteriaStep, { readonly source: string; readonly mark: Mark }>> = {
  evacuate: { source: "Default target; triple evacuation where the circuit was wet", mark: "common-practice" },
  hold: { source: "Default hold; its steady rise is this product's own choice", mark: "common-practice" },
  pressure_test: { source: "Default test at nine tenths of the weakest part's design pressure", mark: "own-choice" },
  leak_check: { source: "Default detector sensitivity of a quarter ounce a year", mark: "common-practice" },
};

/** What a circuit has to be told before its defaults are known. */
export interface CriteriaGround {
  readonly circuit: CircuitFacts | null;
  /** Opened to air, wet or burnt out: evacuated three times and held longer. */
  readonly wet: boolean;
}

/**
 * The criteria one step is judged by.
 *
 * The default; in its place the maker's written instruction, even a looser one; then the company's rows where they
 * tighten; then the law's rows, below which nothing goes. Null where nothing is known to test against.
 */
export function criteriaInForce<S extends CriteriaStep>(
  step: S,
  rows: readonly CriteriaRow[],
  ground: CriteriaGround,
): CriteriaInForce<S> | null {
  const mine = rows.filter((row) => row.criteria.step === step);
  const own = defaultCriteria(step, ground);
  const maker = mine.filter((row) => row.origin === "maker").at(-1);
  const start = maker ? (maker.criteria.values as CriteriaByStep[S]) : own;
  if (start === null) return null;
  let values: CriteriaByStep[S] = start;
  const sources = [maker ? maker.source : DEFAULT_SOURCES[step].source];
  const ignored: CriteriaRow[] = [];
  for (const origin of ["company", "law"] as const) {
    for (const row of mine.filter((candidate) => candidate.origin === origin)) {
      const tightened = stricter(step, values, row.criteria.values as CriteriaByStep[S]);
      if (sameCriteria(tightened, values)) ignored.push(row);
      else sources.push(row.source);
      values = tightened;
    }
  }
  const makerIsLooser = maker !== undefined && own !== null && !sameCriteria(stricter(step, values, own), values);
  return { values, sources, makerIsLooser, ignored };
}

function defaultCriteria<S extends CriteriaStep>(step: S, { circuit, wet }: CriteriaGround): CriteriaByStep[S] | null {
  const weakestKPaGauge = circuit?.lowSideDesignKPaGauge ?? null;
  const defaults: { readonly [K in CriteriaStep]: CriteriaByStep[K] | null } = {
    evacuate: {
      targetMicron: 500,
      dwellMinutes: null,
      preCycles: wet
        ? [
            { toMicron: 2000, breakGas: "nitrogen" },
            { toMicron: 2000, breakGas: "nitrogen" },
          ]
        : [],
    },
    hold: {
      targetMicron: 500,
      holdMinutes: wet ? 30 : 10,
      maxFinalMicron: 1000,
      maxSteadyRiseMicronPerMin: 5,
      failAtMicron: null,
    },
    pressure_test:
      weakestKPaGauge === null
        ? null
        : { testPressureKPaGauge: 0.9 * weakestKPaGauge, holdMinutes: 30, maxLeakKPaPerHour: 10 },
    leak_check: { maxSensitivityGramPerYear: 7.1 },
  };
  return defaults[step] as CriteriaByStep[S] | null;
}

type Direction = "lower" | "higher" | "longer";
/** Which way each criterion gets stricter. */
const STRICTER: { readonly [S in CriteriaStep]: Readonly<Record<keyof CriteriaByStep[S], Direction>> } = {
  evacuate: { targetMicron: "lower", dwellMinutes: "higher", preCycles: "longer" },
  hold: {
    targetMicron: "lower",
    holdMinutes: "higher",
    maxFinalMicron: "lower",
    maxSteadyRiseMicronPerMin: "lower",
    failAtMicron: "lower",
  },
  pressure_test: { testPressureKPaGauge: "higher", holdMinutes: "higher", maxLeakKPaPerHour: "lower" },
  leak_check: { maxSensitivityGramPerYear: "lower" },
};

/** Field by field the stricter of two; "not asked for" is the loosest of all. */
function stricter<S extends CriteriaStep>(step: S, a: CriteriaByStep[S], b: CriteriaByStep[S]): CriteriaByStep[S] {
  const directions = STRICTER[step] as Readonly<Record<string, Direction>>;
  const left = a as unknown as Readonly<Record<string, unknown>>;
  const right = b as unknown as Readonly<Record<string, unknown>>;
  const chosen = Object.entries(directions).map(([field, direction]) => {
    const one = left[field];
    const other = right[field];
    if (direction === "longer") {
      return [field, (other as readonly unknown[]).length > (one as readonly unknown[]).length ? other : one];
    }
    if (one === null || other === null) return [field, one ?? other];
    const pick = direction === "lower" ? Math.min : Math.max;
    return [field, pick(one as number, other as number)];
  });
  return Object.fromEntries(chosen) as CriteriaByStep[S];
}

function sameCriteria(a: object, b: object): boolean {
  return JSON.stringify(Object.entries(a).sort()) === JSON.stringify(Object.entries(b).sort());
}
