import { err, ok, type Result } from "@/lib/result";
import { FIXED_ORIFICE_TARGET } from "../rules/charging";
import { fromKelvin, toKelvinDifference } from "../units";

export interface TargetSuperheatError {
  readonly code: "outside-table" | "do-not-charge-by-superheat";
  readonly indoorWetBulbK: number;
  readonly outdoorDryBulbK: number;
}

/**
 * Target superheat in K of a fixed-orifice system, read bilinearly from the published table.
 *
 * The table knows no answer in its dry, hot corner: there the charge is not set by superheat at all.
 * @param indoorWetBulbK air entering the indoor coil, 50 to 76 F
 * @param outdoorDryBulbK air entering the outdoor coil, 40 to 115 F
 * @source split-system service instructions, in rules/charging.ts
 */
export function targetSuperheatK(
  indoorWetBulbK: number,
  outdoorDryBulbK: number,
): Result<number, TargetSuperheatError> {
  const { indoorWetBulbF, rowsByOutdoorDryBulbF: rows } = FIXED_ORIFICE_TARGET;
  const column = locate(indoorWetBulbF, fromKelvin(indoorWetBulbK, "F"));
  const row = locate(
    rows.map(([outdoorF]) => outdoorF),
    fromKelvin(outdoorDryBulbK, "F"),
  );
  if (column === null || row === null) return err({ code: "outside-table", indoorWetBulbK, outdoorDryBulbK });
  let targetF = 0;
  for (const [rowIndex, rowWeight] of row) {
    for (const [columnIndex, columnWeight] of column) {
      const cell = rows[rowIndex]![1][columnIndex]!;
      if (cell === null) return err({ code: "do-not-charge-by-superheat", indoorWetBulbK, outdoorDryBulbK });
      targetF += cell * rowWeight * columnWeight;
    }
  }
  return ok(toKelvinDifference(targetF, "F"));
}

/**
 * The trade's rule of thumb for the same target, in K: (3 x wet bulb - 80 - dry bulb)/2 in F.
 *
 * Off the table by 1.2 F on average and up to 7.5 F at the hot end: shown beside it, never instead of it.
 * @source common practice, as stated on a trade forum
 */
export function ruleOfThumbSuperheatK(indoorWetBulbK: number, outdoorDryBulbK: number): number {
  return toKelvinDifference((3 * fromKelvin(indoorWetBulbK, "F") - 80 - fromKelvin(outdoorDryBulbK, "F")) / 2, "F");
}

/** Grid points around a value with their weights; one point where the value lies on it, null outside. */
function locate(grid: readonly number[], value: number): readonly (readonly [number, number])[] | null {
  const nearest = grid.findIndex((point) => Math.abs(point - value) < 1e-6);
  if (nearest >= 0) return [[nearest, 1]];
  const above = grid.findIndex((point) => point > value);
  if (above <= 0 || Number.isNaN(value)) return null;
  const share = (value - grid[above - 1]!) / (grid[above]! - grid[above - 1]!);
  return [
    [above - 1, 1 - share],
    [above, share],
  ];
}
