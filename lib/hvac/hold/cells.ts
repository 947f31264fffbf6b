import { micronToPa } from "../units";
import type { HoldReading } from "./record";
import { isStray, NEIGHBOURS } from "./stray-readings";

/** Sums over the believed readings of one stretch of time: all the judgement needs of them. */
export interface Cell {
  readonly index: number;
  /** Gauges show coarser steps from 1 000 and 10 000 micron on: readings either side are kept apart. */
  readonly decade: number;
  count: number;
  sumS: number;
  sumPa: number;
  temperatures: number;
  sumK: number;
  /** How often the reading moved from one to the next. */
  moves: number;
  /** How often it moved back. */
  turns: number;
  /** Greatest common divisor of the readings counted in steps of the gauge; 0 before the first. */
  commonSteps: number;
  /** Deviation of readings from the line between their neighbours, scaled to one reading's variance. */
  bends: number;
  sumBendPa2: number;
  /** How often a deviation was to the other side than the one before it. */
  wavers: number;
}

/** An identical value shown by every believed reading from `fromS` on. */
interface Run {
  valuePa: number;
  fromS: number;
  count: number;
  /** How fast the reading went to it from the value shown before, over the time that one was shown; 0 for the first. */
  cameAtPaPerS: number;
}

/** Everything kept of the readings so far; times count from isolation. */
export interface ReadingLog {
  readonly cells: Cell[];
  /** Not yet judged stray or believed: each waits for the readings after it. */
  readonly waiting: HoldReading[];
  /** The last believed readings, oldest first. */
  readonly believed: HoldReading[];
  isolatedS: number;
  received: number;
  receivedS: number;
  ignored: number;
  believedCount: number;
  longestGap: { fromS: number; toS: number };
  /** How often, of late, the readings turned back by more than a step of the gauge: a live gauge's restlessness, 0 to 1. */
  restless: number;
  lastMovePa: number;
  lastBendPa: number;
  /** The last deviation that was one. */
  sidePa: number;
  /** Greatest common divisor of the moves counted in steps of the gauge, since it last changed its step. */
  moveSteps: number;
  run: Run;
}

const DECADES_PA = [10_000, 1000].map((micron) => micronToPa(micron) * (1 - 1e-9));
/** At most this many of the last cells can still take a reading that waits. */
const OPEN_CELLS = 4;
const FINE_CELL_S = 4;
const FINE_UNTIL_S = 64;
const GROWTH = Math.log1p(1 / 16);
const RESTLESS_MEMORY = 0.98;
/** Readings at rest presumed before the first: few readings show little. */
const RESTLESS_DOUBT = 3;
const OFF_STEP = 0.02;
const BEND_SPAN_S = 25;
const BEND_SPAN_FRACTION = 0.06;

export function emptyLog(): ReadingLog {
  return {
    cells: [],
    waiting: [],
    believed: [],
    isolatedS: Number.NaN,
    received: 0,
    receivedS: 0,
    ignored: 0,
    believedCount: 0,
    longestGap: { fromS: 0, toS: 0 },
    restless: 0,
    lastMovePa: 0,
    lastBendPa: 0,
    sidePa: 0,
    moveSteps: 0,
    run: { valuePa: Number.NaN, fromS: 0, count: 0, cameAtPaPerS: 0 },
  };
}

/** Takes a reading; it is believed or set aside once `NEIGHBOURS` more have come. */
export function receive(log: ReadingLog, reading: HoldReading, resolutionPa: number): void {
  if (log.received === 0) log.isolatedS = reading.atS;
  log.received += 1;
  log.receivedS = reading.atS - log.isolatedS;
  log.waiting.push(reading);
  if (log.waiting.length > NEIGHBOURS) decideFirst(log, resolutionPa);
}

/** The log as it would stand if no reading followed; the log itself stays as it is. */
export function closeLog(log: ReadingLog, resolutionPa: number): ReadingLog {
  const closed: ReadingLog = {
    ...log,
    cells: log.cells.map((cell, index) => (index < log.cells.length - OPEN_CELLS ? cell : { ...cell })),
    waiting: [...log.waiting],
    believed: [...log.believed],
    longestGap: { ...log.longestGap },
    run: { ...log.run },
  };
  while (closed.waiting.length > 0) decideFirst(closed, resolutionPa);
  return closed;
}

function decideFirst(log: ReadingLog, resolutionPa: number): void {
  const reading = log.waiting.shift() as HoldReading;
  const last = log.believed[log.believed.length - 1];
  if (isStray(log.believed, reading, log.waiting, resolutionPa)) log.ignored += 1;
  else believe(log, reading, last, resolutionPa);
}

function believe(log: ReadingLog, reading: HoldReading, last: HoldReading | undefined, resolutionPa: number): void {
  const atS = reading.atS - log.isolatedS;
  const cell = cellAt(log.cells, atS, reading.pressureAbsPa);
  cell.count += 1;
  cell.sumS += atS;
  cell.sumPa += reading.pressureAbsPa;
  if (resolutionPa > 0) {
    const steps = reading.pressureAbsPa / resolutionPa;
    const onStep = Math.abs(steps - Math.round(steps)) < OFF_STEP; // finer than the stated resolution: no step is shared
    cell.commonSteps = greatestCommonDivisor(onStep ? Math.round(steps) : 1, cell.commonSteps);
  }
  if (reading.temperatureK !== undefined) {
    cell.temperatures += 1;
    cell.sumK += reading.temperatureK;
  }
  log.believedCount += 1;
  if (last) noteStep(log, cell, last, reading, resolutionPa);
  else log.run = { valuePa: reading.pressureAbsPa, fromS: atS, count: 1, cameAtPaPerS: 0 };
  log.believed.push(reading);
  if (log.believed.length > NEIGHBOURS) log.believed.shift();
}

function noteStep(log: ReadingLog, cell: Cell, last: HoldReading, reading: HoldReading, resolutionPa: number): void {
  const fromS = last.atS - log.isolatedS;
  const atS = reading.atS - log.isolatedS;
  const { longestGap, run } = log;
  if (atS - fromS > longestGap.toS - longestGap.fromS) log.longestGap = { fromS, toS: atS };
  const movePa = reading.pressureAbsPa - last.pressureAbsPa;
  const bend = bendOf(log.believed[log.believed.length - 2], last, reading, log.isolatedS);
  if (Math.abs(movePa) > 1e-6) {
    cell.moves += 1;
    if (movePa * log.lastMovePa < 0) cell.turns += 1;
    if (decadeOf(last.pressureAbsPa) === cell.decade) noteTurn(log, movePa, bend?.bendPa ?? 0, resolutionPa);
    else Object.assign(log, { restless: 0, lastMovePa: 0, lastBendPa: 0, moveSteps: 0 });
    const cameAtPaPerS = movePa / Math.max(atS - run.fromS, 1e-3);
    log.run = { valuePa: reading.pressureAbsPa, fromS: atS, count: 1, cameAtPaPerS };
  } else run.count += 1;
  if (bend) {
    noteBend(cell, bend);
    if (bend.bendPa * log.sidePa < 0) cell.wavers += 1;
    if (bend.bendPa !== 0) log.sidePa = bend.bendPa;
  }
}

/** A smooth rise shown in whole steps never turns back by two of them, nor bends to and fro by more than one. */
function noteTurn(log: ReadingLog, movePa: number, bendPa: number, resolutionPa: number): void {
  const steps = resolutionPa > 0 ? Math.round(Math.abs(movePa) / resolutionPa) : 1;
  log.moveSteps = greatestCommonDivisor(Math.max(1, steps), log.moveSteps);
  const stepPa = log.moveSteps * resolutionPa;
  const back = movePa * log.lastMovePa < 0 && Math.abs(movePa) > 1.5 * stepPa;
  const toAndFro = bendPa * log.lastBendPa < 0 && Math.min(Math.abs(bendPa), Math.abs(log.lastBendPa)) > 1.1 * stepPa;
  const weight = Math.max(1 - RESTLESS_MEMORY, 1 / (log.believedCount + RESTLESS_DOUBT));
  log.restless = log.restless * (1 - weight) ** log.run.count + (back || toAndFro ? weight : 0);
  log.lastMovePa = movePa;
  log.lastBendPa = bendPa;
}

function noteBend(cell: Cell, { bendPa, spanS, share, endS }: Bend): void {
  if (spanS > Math.max(BEND_SPAN_S, BEND_SPAN_FRACTION * endS)) return;
  cell.bends += 1;
  cell.sumBendPa2 += bendPa ** 2 / (1 + share ** 2 + (1 - share) ** 2);
}

interface Bend {
  readonly bendPa: number;
  readonly spanS: number;
  readonly share: number;
  readonly endS: number;
}

/** How far a reading lies off the line between the one before it and the one after. */
function bendOf(
  first: HoldReading | undefined,
  middle: HoldReading,
  after: HoldReading,
  isolatedS: number,
): Bend | null {
  const spanS = first ? after.atS - first.atS : 0;
  if (!first || !(spanS > 0)) return null;
  const share = (middle.atS - first.atS) / spanS;
  const bendPa = middle.pressureAbsPa - first.pressureAbsPa * (1 - share) - after.pressureAbsPa * share;
  return { bendPa, spanS, share, endS: after.atS - isolatedS };
}

function decadeOf(pressureAbsPa: number): number {
  return DECADES_PA.findIndex((fromPa) => pressureAbsPa >= fromPa);
}

/** The cell of this moment: 4 s wide in the first minute, then a sixteenth of the time elapsed. */
function cellAt(cells: Cell[], atS: number, pressureAbsPa: number): Cell {
  const index =
    atS < FINE_UNTIL_S
      ? Math.floor(atS / FINE_CELL_S)
      : FINE_UNTIL_S / FINE_CELL_S + Math.floor(Math.log(atS / FINE_UNTIL_S) / GROWTH);
  const decade = decadeOf(pressureAbsPa);
  for (let at = cells.length - 1; at >= 0 && cells[at]!.index === index; at--)
    if (cells[at]!.decade === decade) return cells[at]!;
  const cell: Cell = {
    index,
    decade,
    count: 0,
    sumS: 0,
    sumPa: 0,
    temperatures: 0,
    sumK: 0,
    moves: 0,
    turns: 0,
    commonSteps: 0,
    bends: 0,
    sumBendPa2: 0,
    wavers: 0,
  };
  cells.push(cell);
  return cell;
}

export function greatestCommonDivisor(a: number, b: number): number {
  let [larger, smaller] = [a, b];
  while (smaller > 0) [larger, smaller] = [smaller, larger % smaller];
  return larger;
}
