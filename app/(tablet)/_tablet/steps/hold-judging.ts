import type { HoldJudgement, HoldRecord } from "@/lib/hvac";
import { paToMicron } from "@/lib/hvac";
import type { EvidenceOf, VacuumReading } from "@/lib/hvac/procedure";
import { criteriaInForce, holdRecordOf } from "@/lib/hvac/procedure";
import { holdWords } from "@/lib/words/en/hold";
import type { Draft } from "../form/draft";
import type { OpenJob } from "../job/use-job";
import type { HoldSaid } from "../judging/answer";
import { vacuumReadings } from "./readings";

/** What the engine is to judge of a hold as typed so far; null while the circuit or the gauge is not described. */
export function recordOfDraft(draft: Draft, job: OpenJob): HoldRecord | null {
  const { state } = job;
  const { internalVolumeL, wallTemperatureC, gauge } = draft as Partial<EvidenceOf<"hold">>;
  const criteria = criteriaInForce("hold", state.criteria, { circuit: state.circuit, wet: state.wet });
  const readings = vacuumReadings(draft.record, job.traces, draft._live);
  if (!criteria || readings.length === 0 || typeof internalVolumeL !== "number" || typeof wallTemperatureC !== "number")
    return null;
  if (!gauge || typeof gauge.resolutionMicron !== "number" || typeof gauge.accuracyPercent !== "number") return null;
  const fact = state.circuit?.refrigerant;
  const refrigerant = fact?.state === "identified" ? fact.refrigerant : "unknown";
  const where = { ...gauge, location: gauge.location ?? "system" };
  return holdRecordOf({ internalVolumeL, wallTemperatureC, gauge: where }, readings, criteria.values, refrigerant);
}

/** A figure to two digits, never with an exponent. */
export function twoDigits(value: number): string {
  return new Intl.NumberFormat("en-US", { maximumSignificantDigits: 2 }).format(value);
}

/** The gauge's way in the last minutes, in words. */
export function trendWords(readings: readonly VacuumReading[], vacuum: (micron: number) => string): string {
  const last = readings.at(-1);
  if (!last) return holdWords.noReadingYet;
  const from = readings.findLast(({ s }) => s <= last.s - 90) ?? readings[0];
  if (!from || last.s - from.s < 20) return holdWords.justIsolated;
  const perMinute = ((last.micron - from.micron) / (last.s - from.s)) * 60;
  const steady = Math.abs(perMinute) < Math.max(0.5, last.micron * 0.002);
  if (steady) return holdWords.steady;
  const pace = vacuum(Math.abs(perMinute));
  return perMinute > 0 ? holdWords.rising(pace) : holdWords.falling(pace);
}

/** Where the pressure is heading is said only where it says something: not of a leak, and not below what stands on the gauge. */
export function saysHeading({ verdict, settlesAt }: HoldJudgement, lastMicron: number | undefined): boolean {
  if (settlesAt === null || verdict === "leaking") return false;
  return lastMicron === undefined || paToMicron(settlesAt.estimatePa) >= 0.97 * lastMicron;
}

export interface LeakWords {
  readonly leak: string | null;
  readonly noLeakAbove: string | null;
  readonly settlesAt: string | null;
}

/** The judgement's figures in words, with how sure they are. */
export function figureWords(
  { judgement: { leak, settlesAt, smallestLeakShownPaPerS }, shown }: HoldSaid,
  vacuum: (micron: number) => string,
  pace: (micron: number) => string,
): LeakWords {
  const perMinute = (paPerS: number) => pace(paToMicron(paPerS) * 60);
  const [loPaPerS, hiPaPerS] = leak?.interval95PaPerS ?? [0, 0];
  return {
    leak: leak
      ? holdWords.between95(holdWords.aMinute(perMinute(leak.ratePaPerS)), perMinute(loPaPerS), perMinute(hiPaPerS))
      : null,
    noLeakAbove:
      smallestLeakShownPaPerS === null
        ? null
        : holdWords.aMinute(perMinute(smallestLeakShownPaPerS)) + inOtherWords(shown),
    settlesAt: settlesAt
      ? holdWords.between95(
          vacuum(paToMicron(settlesAt.estimatePa)),
          vacuum(paToMicron(settlesAt.interval95Pa[0])),
          vacuum(paToMicron(settlesAt.interval95Pa[1])),
        )
      : null,
  };
}

const raised = (power: number) =>
  String(power).replace(/[-\d]/g, (sign) => "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"["-0123456789".indexOf(sign)]!);

/** The same leak as a flow into this volume, and as refrigerant lost once charged. */
function inOtherWords(shown: HoldSaid["shown"]): string {
  if (shown === null) return "";
  const { throughputMbarLPerS, lostPerYearKg, refrigerant } = shown;
  const [digits, power] = throughputMbarLPerS.toExponential(1).split("e");
  const lost = lostPerYearKg < 1 ? `${twoDigits(lostPerYearKg * 1000)} g` : `${twoDigits(lostPerYearKg)} kg`;
  return holdWords.asFlowAndLoss(`${digits} × 10${raised(Number(power))}`, lost, refrigerant);
}
