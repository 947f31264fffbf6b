"use client";

import { type ReactNode, useEffect, useMemo, useOptimistic, useRef, useState, useTransition } from "react";
import { flushSync } from "react-dom";
import { Button } from "@/components/ui/button";
import { classNames } from "@/components/ui/class-names";
import { Dialog, DialogClose } from "@/components/ui/dialog";
import { ErrorNotice } from "@/components/ui/notices";
import { TextInput } from "@/components/ui/text-input";
import { useUndo } from "@/components/ui/undo";
import { type Board, type BoardVisit, dayIndexOf, isMovable, isPlaced } from "@/lib/work/board/board";
import { indexBoard } from "@/lib/work/board/board-index";
import type { LineCommand } from "@/lib/work/board/command-line";
import type { Difference } from "@/lib/work/board/differences";
import { judgeFit, listFittingStarts, type Misfit, type Place } from "@/lib/work/board/fit";
import type { PlanCommand } from "@/lib/work/board/plan-command";
import { layOutRow } from "@/lib/work/board/rows";
import { scaleOf } from "@/lib/work/board/time-scale";
import { commandPlan } from "../actions";
import { BoardGrid, barKey } from "./board-grid";
import { computedAnew, filterBoard, listUnplaced, withPlace } from "./board-words";
import { CommandLine } from "./command-line";
import { EdgeList } from "./edge-list";
import { FitBands } from "./fit-bands";
import { ProposalGhosts } from "./proposal-ghosts";
import { ProposalPanel } from "./proposal-panel";
import { rowHeightPx, rowTops } from "./row-heights";
import { type Carry, useCarry } from "./use-carry";
import { useProposal } from "./use-proposal";
import { VisitSheet } from "./visit-sheet";

interface Notice {
  readonly happened: string;
  readonly safe: string;
}
interface Asking {
  readonly command: Extract<PlanCommand, { do: "place" }>;
  readonly misfits: readonly Misfit[];
}

/** The board as one works at it: every hand (mouse, finger, keys, command line) gives the same commands. */
export function BoardDesk(props: { company: string; board: Board; find: string; spans: ReactNode }) {
  const { company } = props;
  const said = useUndo();
  const [isWorking, startWork] = useTransition();
  const [board, showAlready] = useOptimistic(props.board, (now: Board, move: { id: string } & Partial<BoardVisit>) =>
    withPlace(now, move.id, move),
  );
  const [selected, setSelected] = useState<string | null>(null);
  const [focused, setFocused] = useState<string | null>(null);
  const [find, setFind] = useState(props.find);
  const [atWorkOnly, setAtWorkOnly] = useState(false);
  const [notice, setNotice] = useState<Notice | null>(null);
  const [asking, setAsking] = useState<Asking | null>(null);
  const dayShown = board.days[0]!.day;
  const lastChange = useRef<string | null>(null);
  const focusNext = useRef<string | null>(null);
  const hovering = useRef<ReturnType<typeof setTimeout>>(undefined);

  const index = useMemo(() => indexBoard(board), [board]);
  const { people, dimmed } = useMemo(() => filterBoard(board, find, atWorkOnly), [board, find, atWorkOnly]);
  const scale = useMemo(
    () =>
      scaleOf(
        board.days,
        board.visits,
        board.people.flatMap(({ days }) => days.flatMap(({ shift }) => (shift ? [shift] : []))),
      ),
    [board],
  );
  const rows = useMemo(
    () =>
      people.map((person) => ({
        person,
        row: layOutRow(
          board,
          scale,
          board.days.flatMap((_, d) => index.stopsOf(person.id, d)),
        ),
      })),
    [people, board, scale, index],
  );
  const heights = useMemo(() => rows.map(({ row }) => rowHeightPx(row)), [rows]);
  const { tops } = useMemo(() => rowTops(heights), [heights]);
  const gaps = useMemo(() => listGaps(board, index), [board, index]);
  const unplaced = useMemo(() => listUnplaced(board), [board]);

  const proposing = useProposal(company, props.board);
  const hand = useCarry({ people, tops, index, scale }, onDrop);
  const { carry } = hand;

  useEffect(() => {
    const address = new URL(window.location.href);
    if (find) address.searchParams.set("find", find);
    else address.searchParams.delete("find");
    window.history.replaceState(window.history.state, "", address);
  }, [find]);

  // What was set down by keys has the focus in its new place.
  useEffect(() => {
    const id = focusNext.current;
    const visit = id === null ? undefined : index.visit.get(id);
    if (!visit) return;
    const bar = document.querySelector<HTMLElement>(`[data-bar="${id}"], [data-edge="${id}"]`);
    if (bar) {
      focusNext.current = null;
      bar.focus();
    } else if (isPlaced(visit)) setFocused(barKey(visit.id, visit.people[0]!)); // draws its row, wherever it is
  });

  /** Focus on a bar of a row that may be too far to be drawn: whose bar has the focus always is. */
  function goTo(key: string) {
    flushSync(() => setFocused(key));
    const [visit, person] = key.split(" ");
    document.querySelector<HTMLElement>(`[data-row="${person}"] [data-bar="${visit}"]`)?.focus();
  }

  function goToVisit(id: string) {
    const visit = index.visit.get(id);
    const person = people.find((each) => visit?.people.includes(each.id));
    if (visit && isPlaced(visit) && person) goTo(barKey(id, person.id));
    else document.querySelector<HTMLElement>(`[data-edge="${id}"]`)?.focus();
  }

  function run(
    command: PlanCommand,
    already?: { id: string } & Partial<BoardVisit>,
    afterwards?: () => void,
    ifChanged?: () => void,
  ) {
    setNotice(null);
    startWork(async () => {
      if (already) showAlready(already);
      const outcome = await commandPlan(company, command);
      if (outcome.ok) {
        const { change, words } = outcome.value;
        lastChange.current = change;
        afterwards?.();
        if (command.do === "undo") said(words);
        else said(words, () => run({ do: "undo", change }));
        return;
      }
      const refusal = outcome.error;
      switch (refusal.code) {
        case "does-not-fit":
          if (refusal.mayAnyway && command.do === "place") setAsking({ command, misfits: refusal.misfits });
          else setNotice({ happened: refusal.misfits.map(({ words }) => words).join(" "), safe: STAYED });
          return;
        case "changed-meanwhile":
          ifChanged?.();
          setNotice({
            happened: "Somebody was there before you.",
            safe: `${refusal.words} Nothing of yours was written.`,
          });
          return;
        case "refused":
          setNotice({ happened: refusal.words, safe: STAYED });
          return;
        case "not-found":
          setNotice({ happened: "It is not there any more.", safe: "Nothing was changed." });
      }
    });
  }

  function onDrop({ visit, fromPersonId, by }: Carry, { personId, startMs }: Place) {
    if (visit.startMs === startMs && visit.people.includes(personId)) return;
    const { kind, id, version } = visit;
    const misfits = judgeFit(index, visit, { personId, startMs });
    const command = { do: "place", kind, id, version, personId, fromPersonId, startMs, anyway: false } as const;
    if (by === "keys") focusNext.current = id;
    if (misfits.length > 0 && misfits.every(({ kind: misfit }) => ASKABLE.has(misfit)))
      return setAsking({ command, misfits });
    const others = visit.people.filter((each) => each !== fromPersonId && each !== personId);
    run(command, misfits.length === 0 ? { id, startMs, people: [...others, personId] } : undefined);
  }

  function onCarry(visit: BoardVisit, personId: string | null) {
    if (!isMovable(visit))
      return setNotice({ happened: `${visit.label} has begun and stays where it is.`, safe: STAYED });
    const at = isPlaced(visit) && personId ? { personId, startMs: visit.startMs } : firstPlace(visit);
    if (at) hand.begin({ visit, fromPersonId: personId, by: "keys" }, at);
  }

  /** Where carrying by keys begins for what has no place: the earliest that fits, else the first row's morning. */
  function firstPlace(visit: BoardVisit): Place | null {
    let best: Place | null = null;
    for (const person of people)
      for (const d of board.days.keys())
        for (const { fromMs } of listFittingStarts(index, visit, person.id, d))
          if (best === null || fromMs < best.startMs)
            best = { personId: person.id, startMs: Math.ceil(fromMs / 300_000) * 300_000 };
    const first = people[0];
    return best ?? (first ? { personId: first.id, startMs: board.days[0]!.originMs + 10 * 3_600_000 } : null);
  }

  function onLine(command: LineCommand) {
    switch (command.do) {
      case "go":
        setSelected(command.id);
        goToVisit(command.id);
        return;
      case "person": {
        document.querySelector(`[data-row="${command.id}"]`)?.scrollIntoView({ block: "center" });
        const first = rows.find(({ person }) => person.id === command.id)?.row.bars[0];
        if (first) goTo(barKey(first.visit.id, command.id));
        return;
      }
      case "place": {
        const visit = index.visit.get(command.id);
        if (visit) onCarry(visit, visit.people[0] ?? null);
        return;
      }
      case "undo":
        if (lastChange.current) run({ do: "undo", change: lastChange.current });
        else
          setNotice({
            happened: "You have changed nothing here yet.",
            safe: "Older changes are taken back at the visit.",
          });
        return;
      case "away":
        markAway(command.id);
        return;
      case "plan":
        void proposing.ask({ want: "rest", day: dayShown });
        return;
    }
  }

  /** Away for the rest of today, or for the whole of another day; then what becomes of the visits. */
  function markAway(personId: string) {
    const originMs = board.days[0]!.originMs;
    const fromMs = board.today === 0 ? Math.max(originMs, Math.floor(Date.now() / 60_000) * 60_000) : originMs;
    const absorb = () => void proposing.ask({ want: "absorb", day: dayShown });
    run({ do: "away", personId, fromMs, toMs: originMs + 24 * 3_600_000 - 60_000 }, undefined, absorb);
  }

  function onPropose({ kind, id, startMs }: BoardVisit) {
    const d = startMs === null ? -1 : dayIndexOf(board.days, startMs);
    void proposing.ask({ want: "place", day: board.days[Math.max(0, d)]!.day, kind, id });
  }

  function onAccept(chosen: readonly Difference[]) {
    if (proposing.state.step !== "shown") return;
    const { basis, question } = proposing.state.proposal;
    const moves = chosen.map(({ visit: kind, id, version, to }) => ({
      kind,
      id,
      version,
      people: [...(to?.people ?? [])],
      startMs: to?.startMs ?? null,
    }));
    proposing.close();
    run(
      { do: "accept", basis: [...basis], moves },
      undefined,
      undefined,
      () => void proposing.ask(question, computedAnew()),
    );
  }

  const proposed = proposing.state;
  /** Seven days need the whole width: what stands beside a shorter board stands under it. */
  const isWeek = board.days.length > 3;
  const absorb = () => void proposing.ask({ want: "absorb", day: dayShown });
  /** Made longer, a visit may run into the next: then the planner is asked what to do. */
  const overrun = (command: PlanCommand) => {
    if (command.do !== "lengthen") return false;
    const visit = index.visit.get(command.id);
    return visit !== undefined && isPlaced(visit) && command.minutes > visit.minutes;
  };
  const chosen = selected === null ? undefined : index.visit.get(selected);
  const bars = useMemo(
    () => rows.flatMap(({ person, row }) => row.bars.map(({ visit }) => barKey(visit.id, person.id))),
    [rows],
  );
  const tabStop = focused !== null && bars.includes(focused) ? focused : (bars[0] ?? null);
  return (
    <div className="grid gap-4">
      <div className="no-print flex flex-wrap items-end gap-x-6 gap-y-2">
        {props.spans}
        <CommandLine board={board} onCommand={onLine} />
        <div className="w-44">
          <TextInput
            label="Show only"
            labelHidden
            placeholder="Show only …"
            value={find}
            onChange={(event) => setFind(event.target.value)}
          />
        </div>
        <label className="flex min-h-(--control) items-center gap-2">
          <input type="checkbox" checked={atWorkOnly} onChange={(event) => setAtWorkOnly(event.target.checked)} />
          At work only
        </label>
        <Button onClick={() => void proposing.ask({ want: "rest", day: dayShown })}>
          {board.today === 0 ? "Plan the rest of the day" : "Plan the day"}
        </Button>
      </div>
      {notice && (
        <ErrorNotice
          happened={notice.happened}
          safe={notice.safe}
          action={<Button onClick={() => setNotice(null)}>Understood</Button>}
        />
      )}
      <div ref={hand.spoken} role="status" aria-live="assertive" className="sr-only" />
      <div
        className={classNames("grid gap-6", !isWeek && "desk:grid-cols-[minmax(0,1fr)_17rem]")}
        aria-busy={isWorking}
      >
        <section aria-label="Visits by person" className="grid content-start gap-2">
          <div
            ref={hand.hint}
            aria-hidden="true"
            className="no-print h-6 truncate text-small text-ink-soft [contain:strict]" // its words change in each frame
          >
            {carry ? "" : HINT}
          </div>
          <BoardGrid
            board={board}
            index={index}
            scale={scale}
            rows={rows}
            tops={tops}
            heldRow={carry?.fromPersonId ?? null}
            gaps={gaps}
            selected={selected}
            tabStop={tabStop}
            dimmed={dimmed}
            scroller={hand.scroller}
            surface={hand.surface}
            onPointerDown={(event, visit, personId) => isMovable(visit) && hand.onPointerDown(event, visit, personId)}
            onSelect={(id) => !hand.swallowClick.current && setSelected(id)}
            onFocusBar={setFocused}
            onHover={(words) => {
              clearTimeout(hovering.current);
              if (carry) return;
              hovering.current = setTimeout(() => {
                if (hand.hint.current && !hand.isCarrying()) hand.hint.current.textContent = words ?? HINT;
              }, HOVER_MS);
            }}
            onGoTo={goTo}
            onCarry={onCarry}
            over={(drawn) => (
              <>
                {proposed.step === "shown" && (
                  <ProposalGhosts
                    board={board}
                    scale={scale}
                    people={people}
                    tops={tops}
                    differences={proposed.proposal.differences}
                    chosen={proposed.chosen}
                  />
                )}
                {carry && (
                  <>
                    <FitBands
                      index={index}
                      scale={scale}
                      people={people}
                      tops={tops}
                      heights={heights}
                      drawn={drawn}
                      visit={carry.visit}
                    />
                    <div
                      ref={hand.ghost}
                      className="board-ghost absolute top-0 left-0 z-20 truncate rounded-control px-1 text-small leading-7 will-change-transform"
                      style={{ visibility: "hidden" }}
                    >
                      <span className="font-semibold">{carry.visit.customer}</span>
                    </div>
                  </>
                )}
              </>
            )}
          />
        </section>
        <div className="grid content-start gap-4">
          {proposed.step !== "none" && (
            <ProposalPanel
              state={proposed}
              onToggle={proposing.toggle}
              onAccept={onAccept}
              onAsk={(question) => void proposing.ask(question)}
              onClose={proposing.close}
            />
          )}
          {chosen && (
            <VisitSheet
              company={company}
              board={board}
              visit={chosen}
              misfits={gapsOf(gaps, chosen)}
              onCommand={(command) => run(command, undefined, overrun(command) ? absorb : undefined)}
              onCarry={(visit) => onCarry(visit, visit.people[0] ?? null)}
              onPropose={onPropose}
              onClose={() => setSelected(null)}
            />
          )}
          <EdgeList
            board={board}
            across={isWeek}
            visits={unplaced}
            selected={selected}
            onSelect={(id) => !hand.swallowClick.current && setSelected(id)}
            onPointerDown={(event, visit) => hand.onPointerDown(event, visit, null)}
            onCarry={(visit) => onCarry(visit, null)}
          />
        </div>
      </div>
      {carry?.by === "pointer" && (
        // over everything, so that each move of the pointer meets this and is not searched for among hundreds of bars
        <div
          aria-hidden="true"
          className="fixed inset-0 z-50 cursor-grabbing"
          onWheel={({ deltaX, deltaY }) => hand.scroller.current?.scrollBy(deltaX, deltaY)}
        />
      )}
      <Dialog
        title="It does not fit there"
        open={asking !== null}
        onOpenChange={(open) => !open && setAsking(null)}
        actions={
          <>
            <DialogClose>
              <Button>Leave it</Button>
            </DialogClose>
            <Button
              kind="action"
              onClick={() => {
                if (asking) run({ ...asking.command, anyway: true });
                setAsking(null);
              }}
            >
              Place it all the same
            </Button>
          </>
        }
      >
        <ul className="grid list-disc gap-1 pl-5">
          {asking?.misfits.map(({ kind, words }) => (
            <li key={kind}>{words}</li>
          ))}
        </ul>
      </Dialog>
    </div>
  );
}

const HINT = "Drag a visit, or press M on it: arrows carry, Enter sets down, Escape leaves it.";
/** A mouse that rests on a bar asks about it; one that passes does not. */
const HOVER_MS = 80;
const STAYED = "It stayed where it was.";
const ASKABLE: ReadonlySet<Misfit["kind"]> = new Set(["window", "shift", "overlap", "travel", "past", "too-many"]);

/** What stands in the way of each bar where it stands now; time that has passed is no gap of a bar. */
function listGaps(board: Board, index: ReturnType<typeof indexBoard>): ReadonlyMap<string, readonly Misfit[]> {
  const gaps = new Map<string, readonly Misfit[]>();
  for (const visit of board.visits) {
    if (!isPlaced(visit) || !isMovable(visit)) continue;
    for (const personId of visit.people) {
      const ridesAlong = index.person.get(personId)?.days.some(({ ridesWith }) => ridesWith !== null);
      if (ridesAlong) continue;
      const found = judgeFit(index, visit, { personId, startMs: visit.startMs }).filter(({ kind }) => kind !== "past");
      if (found.length > 0) gaps.set(`${visit.id} ${personId}`, found);
    }
  }
  return gaps;
}

function gapsOf(gaps: ReadonlyMap<string, readonly Misfit[]>, visit: BoardVisit): readonly Misfit[] {
  return visit.people.flatMap((person) => gaps.get(`${visit.id} ${person}`) ?? []);
}
