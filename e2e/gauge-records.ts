/*
 * What instruments would have written in the journeys: made here, so that each journey says what is in its circuit. The noise
 * depends on nothing but the reading's number.
 */

/** Between -1 and 1, the same for the same number. */
function noise(at: number): number {
  const wave = Math.sin(at * 12.9898) * 43758.5453;
  return 2 * (wave - Math.floor(wave)) - 1;
}

export interface Rise {
  readonly fromMicron: number;
  /** Where the circuit is heading: what stays in it at rest. */
  readonly towardsMicron: number;
  readonly timeConstantS: number;
  readonly readings: number;
  readonly everyS?: number;
}

/** An isolated circuit whose pressure rises and levels off, as a logger exports it. */
export function holdTable({ fromMicron, towardsMicron, timeConstantS, readings, everyS = 1 }: Rise): string {
  const lines = Array.from({ length: readings }, (_, at) => {
    const s = at * everyS;
    const micron = towardsMicron - (towardsMicron - fromMicron) * Math.exp(-s / timeConstantS) + 2 * noise(at);
    return `${s},${Math.round(micron)},${(21 + 0.1 * noise(at + 7)).toFixed(1)}`;
  });
  return ["seconds,micron,temp_C", ...lines].join("\n");
}

/** Sound and dry: a little gas off the walls, then level. */
export const dryHold = holdTable({ fromMicron: 300, towardsMicron: 345, timeConstantS: 120, readings: 601 });

/** Wet: under 1000 micron at ten minutes, which a clock alone would pass, and on its way above it. */
export const wetHold = holdTable({ fromMicron: 380, towardsMicron: 1200, timeConstantS: 450, readings: 601 });

/** After three sweeps with nitrogen: dry, held half an hour. */
export const driedHold = holdTable({
  fromMicron: 320,
  towardsMicron: 370,
  timeConstantS: 180,
  readings: 361,
  everyS: 5,
});

/** A pump pulling a circuit down from atmosphere to a few hundred micron. */
export function pulldownTable(downToMicron = 270, minutes = 40): string {
  const lines = Array.from({ length: minutes + 1 }, (_, minute) => {
    return `${minute * 60},${Math.round(downToMicron + 759_000 * Math.exp(-minute / 2.1))}`;
  });
  return ["seconds,micron", ...lines].join("\n");
}

/** A tight circuit under nitrogen: pressure follows the gas temperature and nothing else. */
export function nitrogenTable(kPaGauge: number, minutes = 240): string {
  const lines = Array.from({ length: minutes / 2 + 1 }, (_, at) => {
    const driftC = 0.3 * Math.sin(at / 20);
    const kPa = kPaGauge + ((kPaGauge + 100) / 295) * driftC;
    return `${at * 120},${Math.round(kPa)},${(22 + driftC).toFixed(1)}`;
  });
  return ["seconds,kPa,temp_C", ...lines].join("\n");
}
