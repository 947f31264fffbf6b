import { type Cell, cellAt, decadeOf } from "./cell";
import type { HoldReading } from "./record";
import { isStray, NEIGHBOURS } from "./stray-readings";

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

/** At most this many of the last cells can still take a reading that waits. */
const OPEN_CELLS = 4;
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
  const first = pushBounded(log.waiting, reading);
  if (first) decide(log, first, resolutionPa);
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
  for (let first = closed.waiting.shift(); first; first = closed.waiting.shift()) decide(closed, first, resolutionPa);
  return closed;
}

/** Appends a reading; returns the oldest where it had to make room. */
function pushBounded(readings: HoldReading[], reading: HoldReading): HoldReading | undefined {
  if (readings.length < NEIGHBOURS) {
    readings.push(reading);
    return undefined;
  }
  const oldest = readings[0];
  for (let index = 1; index < NEIGHBOURS; index++) readings[index - 1] = readings[index]!;
  readings[NEIGHBOURS - 1] = reading;
  return oldest;
}

function decide(log: ReadingLog, reading: HoldReading, resolutionPa: number): void {
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
  if (resolutionPa > 0 && cell.commonSteps !== 1) {
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
  pushBounded(log.believed, reading);
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
    run.cameAtPaPerS = movePa / Math.max(atS - run.fromS, 1e-3);
    run.valuePa = reading.pressureAbsPa;
    run.fromS = atS;
    run.count = 1;
  } else run.count += 1;
  if (bend) {
    noteBend(cell, bend);
    if (bend.bendPa * log.sidePa < 0) cell.wavers += 1;
    if (bend.bendPa !== 0) log.sidePa = bend.bendPa;
  }
}

/** A smooth rise shown in whole steps never turns back by two of them, nor bends to and fro by more than one. */
function noteTurn(log: ReadingLog, movePa: number, bendPa: number, resolutionPa: number): void {
  if (log.moveSteps !== 1) {
    const steps = resolutionPa > 0 ? Math.round(Math.abs(movePa) / resolutionPa) : 1;
    log.moveSteps = greatestCommonDivisor(Math.max(1, steps), log.moveSteps);
  }
  const stepPa = log.moveSteps * resolutionPa;
  const back = movePa * log.lastMovePa < 0 && Math.abs(movePa) > 1.5 * stepPa;
  const toAndFro = bendPa * log.lastBendPa < 0 && Math.min(Math.abs(bendPa), Math.abs(log.lastBendPa)) > 1.1 * stepPa;
  const weight = Math.max(1 - RESTLESS_MEMORY, 1 / (log.believedCount + RESTLESS_DOUBT));
  const kept = log.run.count === 1 ? 1 - weight : (1 - weight) ** log.run.count;
  log.restless = log.restless * kept + (back || toAndFro ? weight : 0);
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

export function greatestCommonDivisor(a: number, b: number): number {
  if (b === 1) return 1;
  let [larger, smaller] = [a, b];
  while (smaller > 0) [larger, smaller] = [smaller, larger % smaller];
  return larger;
}
