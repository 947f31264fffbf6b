import type { LogEntry, LogEntryOf } from "@/lib/hvac/log/entry";
import type { StepId } from "@/lib/hvac/log/step";
import type { EntryId } from "@/lib/ids";
import type { RandomLog } from "./random-logs";

/*
 * What must be true of a log before it may count as closed, written from the rules alone and sharing no code with the
 * procedure: pasts by walking back, needs and consequences as their own tables.
 */

const ORDER =
  "make_safe recover open_repair pressure_test leak_check evacuate hold break_and_charge close performance records".split(
    " ",
  ) as StepId[];
const RESTS_ON: Partial<Record<StepId, StepId[]>> = {
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
const PHYSICAL: StepId[] = ["open_repair", "pressure_test", "evacuate", "hold"];

type Recorded = LogEntryOf<"step-recorded">;

/** The first broken condition of a closed job, or null when the log may well be closed. */
export function whyNotClosed({ entries, meant }: RandomLog): string | null {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const pasts = new Map<EntryId, Set<EntryId>>();
  const past = (entry: LogEntry): Set<EntryId> => {
    const known = pasts.get(entry.id);
    if (known) return known;
    const found = new Set<EntryId>();
    pasts.set(entry.id, found);
    const parents = entries.filter(
      (other) =>
        entry.heads.includes(other.id) ||
        (other.installation === entry.installation && other.person === entry.person && other.seq < entry.seq),
    );
    for (const parent of parents) {
      found.add(parent.id);
      for (const id of past(parent)) found.add(id);
    }
    return found;
  };
  const sawIt = (earlier: LogEntry, later: LogEntry) => past(later).has(earlier.id);

  const closing = entries.find((entry) => entry.kind === "job-closed" && past(entry).size === entries.length - 1);
  if (closing === undefined) return "no closing entry has seen everything";

  const rootOf = (entry: LogEntry): LogEntry => (entry.supersedes ? rootOf(byId.get(entry.supersedes.entry)!) : entry);
  const records = entries.filter((entry): entry is Recorded => entry.kind === "step-recorded");
  const roots = records.filter((entry) => !entry.supersedes);
  const versions = (root: LogEntry) => records.filter((entry) => rootOf(entry) === root);
  const bad = (entry: LogEntry) => !["pass", "unproven"].includes(meant.get(entry.id)!);
  const latest = (root: LogEntry) =>
    versions(root).filter((one) => !versions(root).some((other) => other !== one && sawIt(one, other)));
  const everBad = (root: LogEntry) => versions(root).some(bad);
  const passes = (root: LogEntry) =>
    !everBad(root) && latest(root).length === 1 && meant.get(latest(root)[0]!.id) === "pass";
  /** Fails now, and so sends back: bad in its latest version. */
  const fails = (root: LogEntry) => latest(root).some(bad);
  const charges = roots.filter((root) => root.body.step === "break_and_charge");

  /** Events that must lie in a proof's past for it to count. */
  const undoes = (event: LogEntry, step: StepId, proof: LogEntry): boolean => {
    const place = ORDER.indexOf(step);
    if (event.kind === "circuit-opened" || (event.kind === "step-recorded" && event.body.step === "open_repair")) {
      // Refrigerant that the recovery had not seen, and that may have been in when the circuit was opened.
      if (step === "recover") return charges.some((charge) => !sawIt(event, charge) && !sawIt(charge, proof));
      return place >= (event.kind === "circuit-opened" ? 2 : 3);
    }
    if (event.kind === "left-for-today") return event.body.holding === "nitrogen" && place >= 5;
    if (event.kind !== "step-recorded" || !fails(event)) return false;
    if (event.body.step === "pressure_test" || event.body.step === "leak_check") return place >= 4;
    if (event.body.step !== "hold") return false;
    return meant.get(latest(event)[0]!.id) === "wet" ? place >= 5 : place >= 3;
  };
  const events = entries.filter((entry) => !entry.supersedes);
  const undone = (proof: LogEntry, step: StepId) =>
    events.some((event) => event !== proof && undoes(event, step, proof) && !sawIt(event, proof));

  const kinds = entries.filter((entry) => entry.kind === "job-kind-set");
  const lastKinds = kinds.filter((one) => !kinds.some((other) => sawIt(one, other)));
  const first = entries[0] as LogEntryOf<"job-opened">;
  const kindNames = new Set(lastKinds.map((one) => (one as LogEntryOf<"job-kind-set">).body.jobKind));
  if (kindNames.size > 1) return "two kinds side by side";
  const kind = [...kindNames][0] ?? first.body.kind;
  if (kind === "unknown") return "kind unknown";
  const touched =
    entries.some((entry) => entry.kind === "circuit-opened") || roots.some((root) => PHYSICAL.includes(root.body.step));
  if (kind === "component_swap_not_opened" && touched) return "kind contradicted";

  const skipped = (step: StepId) =>
    !roots.some((root) => root.body.step === step) &&
    entries.some((entry) => {
      if (entry.kind !== "step-skipped" || entry.body.step !== step) return false;
      const { reason } = entry.body.grounds;
      if (kind === "new_install_precharged") return step === "recover" && reason === "no-refrigerant-in-line-set";
      if (kind !== "component_swap_not_opened") return false;
      const port = step === "leak_check" || step === "close";
      const inside = !["make_safe", "performance", "records"].includes(step);
      return port ? reason === "no-port-touched" : inside && reason === "circuit-not-opened";
    });

  const tightness = roots.filter((root) => ["pressure_test", "leak_check", "hold"].includes(root.body.step));
  const unhealed = tightness.some((root) => {
    const seriousVersion = versions(root).some(
      (one) => bad(one) && (root.body.step !== "hold" || meant.get(one.id) !== "wet"),
    );
    const healed = tightness.some((other) => other.body.step === root.body.step && passes(other) && sawIt(root, other));
    return seriousVersion && !healed;
  });
  const overridden = (step: StepId) =>
    step !== "recover" &&
    !(unhealed && ["pressure_test", "leak_check", "hold"].includes(step)) &&
    entries.some((ask) => {
      if (ask.kind !== "override-asked" || ask.body.step !== step || undone(ask, step)) return false;
      return entries.some(
        (answer) =>
          answer.kind === "override-answered" &&
          answer.body.asks === ask.id &&
          answer.body.granted &&
          answer.stamp?.roles.includes("supervisor") === true,
      );
    });

  const proven = (root: Recorded): boolean => {
    const step = root.body.step;
    if (!passes(root) || undone(root, step)) return false;
    return (RESTS_ON[step] ?? []).every(
      (need) =>
        skipped(need) ||
        overridden(need) ||
        roots.some((other) => other.body.step === need && sawIt(other, root) && proven(other)),
    );
  };
  for (const step of ORDER) {
    const own = roots.filter((root) => root.body.step === step);
    const proof = own.some(
      (root) =>
        proven(root) &&
        !own.some((other) => other !== root && !sawIt(other, root) && !passes(other) && !undone(other, step)),
    );
    if (!proof && !skipped(step) && !overridden(step))
      return `${step} is neither proven nor rightly left out nor overridden`;
  }
  return null;
}
