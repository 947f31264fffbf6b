import { micronToPa } from "../units";

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

const FIRST_DECADE_PA = micronToPa(1000) * (1 - 1e-9);
const SECOND_DECADE_PA = micronToPa(10_000) * (1 - 1e-9);
const FINE_CELL_S = 4;
const FINE_UNTIL_S = 64;
const FINE_CELLS = FINE_UNTIL_S / FINE_CELL_S;
const GROWTH = Math.log1p(1 / 16);

export function decadeOf(pressureAbsPa: number): number {
  if (pressureAbsPa < FIRST_DECADE_PA) return 0;
  return pressureAbsPa < SECOND_DECADE_PA ? 1 : 2;
}

/** The cell of this moment, made where it is missing: 4 s wide in the first minute, then a sixteenth of the time elapsed. */
export function cellAt(cells: Cell[], atS: number, pressureAbsPa: number): Cell {
  const decade = decadeOf(pressureAbsPa);
  const index = cellIndex(atS);
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

function cellIndex(atS: number): number {
  if (atS < FINE_UNTIL_S) return Math.floor(atS / FINE_CELL_S);
  return FINE_CELLS + Math.floor(Math.log(atS / FINE_UNTIL_S) / GROWTH);
}
