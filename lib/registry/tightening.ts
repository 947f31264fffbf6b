import * as z from "zod";
import { criteriaRow } from "@/lib/hvac/log/criteria-schema";
import { type CriteriaRow, criteriaInForce, type HoldCriteria } from "@/lib/hvac/procedure";
import { optionalNumber } from "./fields";

/** The hold as it is asked for where neither a maker nor the company says otherwise. */
export function defaultHoldCriteria(): HoldCriteria {
  const inForce = criteriaInForce("hold", [], { circuit: null, wet: false });
  if (!inForce) throw new Error("the hold has a default");
  return inForce.values;
}

const standard = defaultHoldCriteria();

/** What a company may ask of every hold beyond the default; an empty field leaves the default. Looser is refused. */
export const tighteningForm = z.strictObject({
  targetMicron: optionalNumber({ over: 0, max: standard.targetMicron }),
  holdMinutes: optionalNumber({ min: standard.holdMinutes, max: 24 * 60 }),
  maxFinalMicron: optionalNumber({ over: 0, max: standard.maxFinalMicron }),
  maxSteadyRiseMicronPerMin: optionalNumber({ over: 0, max: standard.maxSteadyRiseMicronPerMin }),
});
export type Tightening = z.output<typeof tighteningForm>;

/** The company's rows for jobs opened from now on; none when every field was left empty. */
export function tighteningRows(fields: Tightening, day: string): CriteriaRow[] {
  if (Object.values(fields).every((value) => value === null)) return [];
  const values: HoldCriteria = {
    ...standard,
    targetMicron: fields.targetMicron ?? standard.targetMicron,
    holdMinutes: fields.holdMinutes ?? standard.holdMinutes,
    maxFinalMicron: fields.maxFinalMicron ?? standard.maxFinalMicron,
    maxSteadyRiseMicronPerMin: fields.maxSteadyRiseMicronPerMin ?? standard.maxSteadyRiseMicronPerMin,
  };
  return [
    {
      rowId: "company-hold",
      origin: "company",
      source: `Company rule since ${day}`,
      criteria: { step: "hold", values },
    },
  ];
}

/** The rows as the company keeps them; anything else it holds is none. */
export function readTightenings(stored: unknown): CriteriaRow[] {
  const rows = z.array(criteriaRow).safeParse(stored);
  return rows.success ? rows.data : [];
}
