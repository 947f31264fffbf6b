import { applyCorrections, type LogItem } from "../log/corrections";
import type { LogEntry } from "../log/entry";
import { mergeEntries } from "../log/merge";
import { orderLog } from "../log/order";
import type { StepId } from "../log/step";
import { type Knowledge, knowledgeReader } from "./knowledge";
import { findTemplate, TEMPLATE_VERSION, type Template } from "./template";

/** A log sorted, corrected and read for its facts: the ground every later question stands on. */
export type JobGround = ReturnType<typeof layGround>;

export function layGround(entries: readonly LogEntry[]) {
  const merged = mergeEntries(entries);
  if (merged.entries.some((entry) => entry.job !== merged.entries[0]?.job)) {
    throw new Error("entries of several jobs were handed to one fold");
  }
  const log = orderLog(merged.entries);
  const { items, faults } = applyCorrections(log);
  const knowledge = knowledgeReader(log, items);
  const { now } = knowledge;
  const openings = items.filter(isOpening);
  const kindContradicted = now.kind === "component_swap_not_opened" && openings.length > 0;
  const kindInForce = kindContradicted || now.contested.includes("kind") ? "unknown" : now.kind;
  const template = findTemplate(kindInForce, now.templateVersion);
  return {
    log,
    items,
    faults,
    conflicts: merged.conflicts,
    knowledge,
    now,
    openings,
    kindContradicted,
    kindInForce,
    templateKnown: template !== null,
    template: template ?? strictest(),
    wet: wetNow(now, items),
  };
}

/** A template nobody here knows: everything is asked for, and nothing closes until the program is updated. */
function strictest(): Template {
  return findTemplate("unknown", TEMPLATE_VERSION)!;
}

/** Whatever cannot be done without opening the circuit shows that it was opened. */
function isOpening(item: LogItem): boolean {
  const step = recordedStep(item);
  return item.original.kind === "circuit-opened" || (step !== null && OPENING_STEPS.has(step));
}
const OPENING_STEPS: ReadonlySet<StepId> = new Set(["open_repair", "pressure_test", "evacuate", "hold"]);

export function recordedStep(item: LogItem): StepId | null {
  return item.original.kind === "step-recorded" ? item.original.body.step : null;
}

/** Opened to air, wet or burnt out: by the kind of job, or because somebody found it so. */
function wetNow(now: Knowledge, items: readonly LogItem[]): boolean {
  if (now.kind === "opened_wet_burnout") return true;
  return items.some((item) =>
    item.versions.some(
      ({ entry }) =>
        entry.kind === "step-recorded" &&
        entry.body.step === "open_repair" &&
        entry.body.evidence.contamination !== "none",
    ),
  );
}
