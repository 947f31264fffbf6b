import type { EntryId } from "@/lib/ids";
import type { StepRecord } from "../log/entry";
import type { OrderedLog } from "../log/order";
import { STEP_IDS, type StepId } from "../log/step";
import type { JobGround } from "./job-ground";
import { type JudgedRecord, showsLeak } from "./judged-records";
import type { VoidCode } from "./words";

/** Something that happened and takes away what was proven before it, from one step of the order onward. */
export interface Voiding {
  readonly index: number;
  readonly entry: EntryId;
  readonly from: StepId;
  /** Charges that may have been in the circuit when it was opened: a recovery that had not seen them is void. */
  readonly charges: readonly number[];
  readonly code: VoidCode;
}

const PLACE: Readonly<Record<StepId, number>> = Object.fromEntries(
  STEP_IDS.map((step, index) => [step, index]),
) as Record<StepId, number>;

/** Whether the event takes away a proof of this step that stands at `index`, should it not come before it. */
export function takesAway(voiding: Voiding, step: StepId, index: number, log: OrderedLog): boolean {
  if (step === "recover") return voiding.charges.some((charge) => !log.before(charge, index));
  return PLACE[step] >= PLACE[voiding.from];
}

/**
 * Everything in the log that throws proofs away.
 *
 * Opening: all later proofs. A failed pressure test or leak check: back to the repair. A hold that shows a leak: back
 * to the pressure test; one that shows water: back to the evacuation. A lost vacuum: back to the evacuation.
 * @source common practice
 */
export function listVoidings(ground: JobGround, records: readonly JudgedRecord[]): Voiding[] {
  const voidings: Voiding[] = [];
  const charges = records.filter(({ step }) => step === "break_and_charge");
  const chargedAt = (index: number) =>
    charges.filter((charge) => !ground.log.before(index, charge.index)).map((charge) => charge.index);
  for (const { index, current, original } of ground.items) {
    if (original.kind === "circuit-opened") {
      const entry = current.id;
      voidings.push({ index, entry, from: "open_repair", charges: chargedAt(index), code: "circuit-opened" });
    } else if (current.kind === "left-for-today" && current.body.holding === "nitrogen") {
      voidings.push({ index, entry: current.id, from: "evacuate", charges: [], code: "vacuum-lost" });
    }
  }
  for (const record of records) {
    const { index, item, step } = record;
    const base = { index, entry: item.current.id, charges: [] };
    if (step === "open_repair") {
      voidings.push({ ...base, from: "pressure_test", charges: chargedAt(index), code: "opened-for-repair" });
    }
    if (record.outcome !== "failed") continue;
    const back = backTo(record, ground);
    if (back !== null) voidings.push({ ...base, ...back });
  }
  return voidings;
}

function backTo({ step, verdict, item }: JudgedRecord, ground: JobGround): { from: StepId; code: VoidCode } | null {
  if (step === "pressure_test" && verdict.verdict === "over-pressure") {
    return { from: "pressure_test", code: "tightness-test-failed" };
  }
  if (step === "pressure_test" || step === "leak_check") {
    // Where the circuit was never opened there is no repair to go back to: what was touched is seen to and checked again.
    return { from: ground.template.opensCircuit ? "open_repair" : step, code: "tightness-test-failed" };
  }
  if (step === "hold") {
    return showsLeak(verdict)
      ? { from: "pressure_test", code: "hold-showed-leak" }
      : { from: "evacuate", code: "hold-showed-water" };
  }
  const record = item.current.body as StepRecord;
  const brokeVacuum =
    record.step === "evacuate" ||
    (record.step === "break_and_charge" &&
      (record.evidence.brokenWith === "air" || record.evidence.brokenWith === "nitrogen"));
  return brokeVacuum ? { from: "evacuate", code: "vacuum-lost" } : null;
}
