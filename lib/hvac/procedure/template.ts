import type { JobKindOrUnknown, SkipGrounds } from "../log/entry";
import type { StepId } from "../log/step";

/** Which version of these tables a job was opened under; a later one never changes a job that is under way. */
export const TEMPLATE_VERSION = 1;

export type SkipReason = SkipGrounds["reason"];

/** One step of one kind of job. */
export interface StepRule {
  /** Grounds on which this step may be left out; none: it is required. */
  readonly skipReasons: readonly SkipReason[];
  /** Steps that must be settled before a record of this one counts. */
  readonly needs: readonly StepId[];
  readonly overridable: boolean;
}

/** A kind of job as data. */
export interface Template {
  readonly kind: JobKindOrUnknown;
  readonly version: number;
  /** The circuit is opened, by plan; evidence of opening forbids a kind that does not. */
  readonly opensCircuit: boolean;
  /** Opened to air, wet or burnt out: three evacuations, a longer hold, driers and acid looked at. */
  readonly wet: boolean;
  readonly steps: Readonly<Record<StepId, StepRule>>;
}

/*
 * The order of the work. What a step needs before it: recovery before opening, both tightness tests before
 * evacuation, a passed hold before charge. The leak check is made while the pressure test stands, in either order.
 */
const NEEDS: Readonly<Record<StepId, readonly StepId[]>> = {
  make_safe: [],
  recover: [],
  open_repair: ["recover"],
  pressure_test: ["open_repair"],
  leak_check: ["open_repair"],
  evacuate: ["pressure_test", "leak_check"],
  hold: ["evacuate"],
  break_and_charge: ["hold"],
  close: ["break_and_charge"],
  performance: ["break_and_charge"],
  records: ["close", "performance"],
};

type Skips = Partial<Record<StepId, readonly SkipReason[]>>;
const NOT_OPENED: readonly SkipReason[] = ["circuit-not-opened"];

const SKIPS: Readonly<Record<JobKindOrUnknown, Skips>> = {
  compressor_change: {},
  leak_repair: {},
  new_install_precharged: { recover: ["no-refrigerant-in-line-set"] },
  component_swap_not_opened: {
    recover: NOT_OPENED,
    open_repair: NOT_OPENED,
    pressure_test: NOT_OPENED,
    leak_check: ["no-port-touched"],
    evacuate: NOT_OPENED,
    hold: NOT_OPENED,
    break_and_charge: NOT_OPENED,
    close: ["no-port-touched"],
  },
  opened_wet_burnout: {},
  pump_down_service: {},
  unknown: {},
};

function templateOf(kind: JobKindOrUnknown): Template {
  const entries = (Object.keys(NEEDS) as StepId[]).map((step): [StepId, StepRule] => [
    step,
    { skipReasons: SKIPS[kind][step] ?? [], needs: NEEDS[step], overridable: step !== "recover" },
  ]);
  return {
    kind,
    version: TEMPLATE_VERSION,
    opensCircuit: kind !== "component_swap_not_opened",
    wet: kind === "opened_wet_burnout",
    steps: Object.fromEntries(entries) as Record<StepId, StepRule>,
  };
}

const TEMPLATES: Readonly<Record<JobKindOrUnknown, Template>> = {
  compressor_change: templateOf("compressor_change"),
  leak_repair: templateOf("leak_repair"),
  new_install_precharged: templateOf("new_install_precharged"),
  component_swap_not_opened: templateOf("component_swap_not_opened"),
  opened_wet_burnout: templateOf("opened_wet_burnout"),
  pump_down_service: templateOf("pump_down_service"),
  unknown: templateOf("unknown"),
};

/**
 * The template of a kind of job in the version the job was opened under; null for a version this program does not know.
 * A kind not yet known has every step required.
 * @source order and what each kind may leave out: common practice; duties inside a step name their own source
 */
export function findTemplate(kind: JobKindOrUnknown, version: number): Template | null {
  return version === TEMPLATE_VERSION ? TEMPLATES[kind] : null;
}
