import type { LogEntry, LogEntryOf } from "../log/entry";
import { listAlarms } from "./alarms";
import { readClosing } from "./closing";
import { needsFlammableCare } from "./flammable";
import { type JobGround, layGround } from "./job-ground";
import type { FoldTools } from "./judge-record";
import { isToBeDriedAgain, judgeRecords } from "./judged-records";
import { mayBeReplaced } from "./knowledge";
import { type MassMove, movesOf } from "./mass-moves";
import { listMissingForClose } from "./missing-for-close";
import { nextAction } from "./next-action";
import { readOverrides } from "./overrides";
import { readSkips } from "./skips";
import { standingReader } from "./standing";
import type { JobState, NoEffect, Review } from "./state";
import { readSteps } from "./step-states";
import { listVoidings } from "./voiding";
import { alarmText, type NoEffectCode, noEffectText, reviewText } from "./words";

export const PROCEDURE_RULES_VERSION = "procedure-1";

/**
 * The state of a job from its log.
 *
 * Any order, any number of copies of the same entries gives the same state. All entries must belong to one job.
 */
export function foldJob(entries: Iterable<LogEntry>, tools: FoldTools): JobState {
  const ground = layGround([...entries]);
  const proof = foldProof(ground, tools);
  const closing = readClosing(ground, proof.missingForClose, tools, (part) => {
    return foldProof(layGround(part), tools).missingForClose;
  });
  const { now, log } = ground;
  const status = closing.closedBy !== null ? "closed" : proof.left !== null ? "left-for-today" : "open";
  return {
    job: log.entries[0]?.job ?? null,
    opened: now.opened,
    kind: now.kind,
    kindInForce: ground.kindInForce,
    templateVersion: now.templateVersion,
    circuit: now.circuit,
    criteria: now.rows,
    flammable: needsFlammableCare(now.circuit),
    wet: ground.wet,
    dryAgain: isToBeDriedAgain(proof.records, log),
    circuitWasOpened: ground.openings.length > 0,
    status,
    certificate: closing.certificate,
    closedBy: closing.closedBy,
    reopenedBy: closing.reopenedBy,
    left: proof.left,
    steps: proof.steps,
    openStep: proof.openStep,
    next: nextAction(ground, proof, closing.closedBy !== null),
    overrides: proof.overrides,
    reviews: proof.reviews,
    alarms: [
      ...proof.alarms,
      ...closing.reopenedBy.map(
        (entry) => ({ code: "entry-after-close", entry, text: alarmText("entry-after-close") }) as const,
      ),
    ],
    withoutEffect: [...proof.withoutEffect, ...closing.withoutEffect].sort((a, b) => (a.entry < b.entry ? -1 : 1)),
    correctedFailures: proof.records.filter(({ correctedAway }) => correctedAway).map(({ item }) => item.original.id),
    missingForClose: proof.missingForClose,
    awaited: log.missing,
    gaps: log.gaps,
    heads: closing.heads,
    mass: massOf(movesOf(ground.items)),
    rulesVersion: PROCEDURE_RULES_VERSION,
  };
}

/** Everything but the closing. */
function foldProof(ground: JobGround, tools: FoldTools) {
  const records = judgeRecords(ground, tools);
  const voidings = listVoidings(ground, records);
  const skips = readSkips(ground);
  const overrides = readOverrides(ground, records, voidings);
  const standing = standingReader(ground, records, voidings, skips.allowed, overrides.granted);
  const { steps, openStep, reviews } = readSteps({ ground, records, skips: skips.allowed, overrides, standing });
  const allReviews = [...jobReviews(ground), ...reviews];
  return {
    records,
    steps,
    openStep,
    overrides: overrides.states,
    reviews: allReviews,
    alarms: listAlarms({ ground, records, voidings, skips, overrides }, tools),
    withoutEffect: listWithoutEffect(ground, [...skips.dismissed, ...overrides.dismissed]),
    missingForClose: listMissingForClose(ground, steps, allReviews),
    left: leftForToday(ground),
  };
}

function jobReviews(ground: JobGround): Review[] {
  const contested = ground.now.contested.map((subject): Review => {
    const code = `${subject}-contested` as const;
    return { code, step: null, entries: [], text: reviewText(code) };
  });
  const twice = ground.conflicts.map(
    (entry): Review => ({ code: "id-used-twice", step: null, entries: [entry], text: reviewText("id-used-twice") }),
  );
  return [...contested, ...twice];
}

function listWithoutEffect(
  { log, faults, items }: JobGround,
  dismissed: readonly { readonly entry: LogEntry; readonly code: NoEffectCode }[],
): NoEffect[] {
  const openings = items.filter(({ original }) => original.kind === "job-opened");
  const openedAgain = openings.filter((item) => openings.some((other) => log.before(other.index, item.index)));
  const foreign = items.filter(
    ({ current }) => current.kind === "criteria-replaced" && !mayBeReplaced(current.body.row),
  );
  const all: { readonly entry: LogEntry; readonly code: NoEffectCode }[] = [
    ...faults,
    ...log.circular.map((entry) => ({ entry, code: "order-impossible" as const })),
    ...openedAgain.map(({ current }) => ({ entry: current, code: "job-already-opened" as const })),
    ...foreign.map(({ current }) => ({ entry: current, code: "criteria-not-allowed" as const })),
    ...dismissed,
  ];
  return all.map(({ entry, code }) => ({ entry: entry.id, code, text: noEffectText(code) }));
}

/** The latest "left for today" that no later work has ended. */
function leftForToday({ items, log }: JobGround): LogEntryOf<"left-for-today">["body"] | null {
  const work = items.filter(
    ({ original: { kind } }) => kind === "work-resumed" || kind === "step-recorded" || kind === "circuit-opened",
  );
  const left = items.filter(
    ({ original, index }) =>
      original.kind === "left-for-today" && !work.some((later) => log.before(index, later.index)),
  );
  return (left.at(-1)?.current as LogEntryOf<"left-for-today"> | undefined)?.body ?? null;
}

/** What came out and what went in. */
function massOf(moves: readonly MassMove[]) {
  const sumOf = (what: MassMove["what"]) =>
    moves.filter((move) => move.what === what).reduce((sum, { massKg }) => sum + massKg, 0);
  return { recoveredKg: sumOf("recovered"), chargedKg: sumOf("charged") };
}
