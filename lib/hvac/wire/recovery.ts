import * as z from "zod";
import { ok } from "@/lib/result";
import { judgeCylinderFill } from "../cylinder";
import { judgeRecovery, type RecoveryRoute } from "../recovery";
import { fromPa, toPa } from "../units";
import { atmosphericKPa, calendarDay, knownRefrigerant, nonNegative, positive, questionId } from "./answer";

const evidence = z.string().max(2000);
const kPaGauge = z.number().min(-115).max(20_000);

const route = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("table") }),
  z.strictObject({ kind: z.literal("isolated-part"), isolatedBy: evidence }),
  z.strictObject({
    kind: z.literal("level-unattainable"),
    because: z.enum(["leak", "contamination"]),
    evidence,
    soundPartsIsolated: z.enum(["yes", "not-possible", "no"]),
  }),
  z.strictObject({ kind: z.literal("found-at-atmosphere"), foundKPaGauge: kPaGauge, evidence }),
  z.strictObject({
    kind: z.literal("non-major-repair"),
    majorPartRemoved: z.boolean(),
    evacuatedAfterwards: z.boolean(),
  }),
  z.strictObject({ kind: z.literal("small-appliance"), factorySealed: z.boolean(), compressorWorks: z.boolean() }),
  z.strictObject({ kind: z.literal("mvac-like") }),
]);

/** Asks whether enough came out; the pressure class may stand in for the refrigerant. */
export const recoveryQuestion = z
  .strictObject({
    id: questionId,
    refrigerant: knownRefrigerant.exactOptional(),
    pressureClass: z.enum(["low", "medium", "high", "very-high"]).exactOptional(),
    fullChargeKg: positive,
    machineMade: z.enum(["before-1993-11-15", "on-or-after-1993-11-15"]),
    atmosphericKPa,
    finalKPaGauge: kPaGauge,
    afterWaitKPaGauge: kPaGauge.exactOptional(),
    recoveredKg: nonNegative.default(0),
    route: route.default({ kind: "table" }),
  })
  .superRefine((question, context) => {
    if (question.refrigerant === undefined && question.pressureClass === undefined)
      context.addIssue({ code: "custom", path: ["refrigerant"], message: "give refrigerant or pressureClass" });
    for (const field of ["finalKPaGauge", "afterWaitKPaGauge"] as const)
      if ((question[field] ?? 0) + question.atmosphericKPa < 0)
        context.addIssue({ code: "custom", path: [field], message: "the absolute pressure would be negative" });
  });

export function answerRecovery(question: z.output<typeof recoveryQuestion>) {
  const { afterWaitKPaGauge } = question;
  const { verdict, required, reasons } = judgeRecovery({
    pressureClass: question.pressureClass ?? question.refrigerant!.pressureClass,
    fullChargeKg: question.fullChargeKg,
    machineAge: question.machineMade,
    barometerPa: toPa(question.atmosphericKPa, "kPa"),
    route: routeFromWire(question.route),
    finalGaugePa: toPa(question.finalKPaGauge, "kPa"),
    ...(afterWaitKPaGauge !== undefined && { afterWaitGaugePa: toPa(afterWaitKPaGauge, "kPa") }),
    recoveredKg: question.recoveredKg,
  });
  const { level, pressureAbsPa, source, mark } = required;
  const kPaAbs = pressureAbsPa === null ? null : fromPa(pressureAbsPa, "kPa");
  return ok({ id: question.id, verdict, required: { ...level, kPaAbs, source, mark }, reasons });
}

function routeFromWire(wire: z.output<typeof route>): RecoveryRoute {
  if (wire.kind !== "found-at-atmosphere") return wire;
  return { kind: wire.kind, foundGaugePa: toPa(wire.foundKPaGauge, "kPa"), evidence: wire.evidence };
}

/** Asks whether a fill may be, or may have been, put into a recovery cylinder. */
export const cylinderQuestion = z.strictObject({
  id: questionId,
  refrigerant: knownRefrigerant,
  tense: z.enum(["intended", "happened"]),
  date: calendarDay,
  grossKg: nonNegative,
  cylinder: z.strictObject({
    waterCapacityKg: positive,
    tareKg: positive,
    contents: knownRefrigerant.nullable(),
    requalificationDueOn: calendarDay.nullable(),
    disposable: z.boolean(),
    damaged: z.boolean(),
    markedForFlammables: z.boolean(),
    servicePressureKPaGauge: positive.exactOptional(),
    labelLimitKg: positive.exactOptional(),
  }),
});

export function answerCylinder({ id, cylinder, ...fill }: z.output<typeof cylinderQuestion>) {
  const { servicePressureKPaGauge, contents, ...stamped } = cylinder;
  const { limit, hotLiquidFraction, ...judged } = judgeCylinderFill({
    ...fill,
    cylinder: {
      ...stamped,
      contents: contents?.name ?? null,
      ...(servicePressureKPaGauge !== undefined && { servicePressureGaugePa: toPa(servicePressureKPaGauge, "kPa") }),
    },
  });
  return ok({
    id,
    verdict: judged.verdict,
    limit: limit && { netKg: limit.netKg, grossKg: limit.grossKg, ...limit.source },
    roomKg: judged.roomKg,
    hotLiquidPercent: hotLiquidFraction === null ? null : hotLiquidFraction * 100,
    reasons: judged.reasons,
  });
}
