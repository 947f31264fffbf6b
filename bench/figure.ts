/** One measured figure, with what it is held to and what it is measured beside. */
export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** The figure may not be above this. */
  readonly atMost?: number;
  readonly beside?: { readonly name: string; readonly value: number };
}

export function figureLine({ name, value, unit, atMost, beside }: Figure): string {
  const held =
    atMost === undefined ? "" : value <= atMost ? `, at most ${atMost}: kept` : `, at most ${atMost}: MISSED`;
  const peer = beside === undefined ? "" : `; ${beside.name} ${round(beside.value)} ${unit}`;
  return `${name}: ${round(value)} ${unit}${held}${peer}`;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Measures and prints when the file is what was started, not when it is imported. */
export async function printWhenStarted(moduleUrl: string, measure: () => Promise<readonly Figure[]>): Promise<void> {
  if (process.argv[1] === undefined || !moduleUrl.endsWith(process.argv[1].replace(/^.*(?=\/bench\/)/, ""))) return;
  for (const figure of await measure()) console.log(figureLine(figure));
}

function round(value: number): string {
  return Number(value.toPrecision(3)).toString();
}
