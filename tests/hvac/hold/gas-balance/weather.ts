import type { Dice } from "./dice";

type Warming = (atS: number) => number;

/** Air that nobody notices: a slow slope and a slow swing, together at most about this many K. */
export function calm(dice: Dice, mostK: number, holdS: number): Warming {
  const slope = dice.between(-0.6, 0.6) * mostK;
  const swing = dice.between(0, 0.4) * mostK;
  const turns = dice.between(0.5, 3);
  const phase = dice.between(0, 2 * Math.PI);
  return (s) => (slope * s) / holdS + swing * (Math.sin((2 * Math.PI * turns * s) / holdS + phase) - Math.sin(phase));
}

/** Clouds pass: sun on the wall, on and off by chance, the wall following within minutes. */
export function sun(dice: Dice, mostK: number, holdS: number): Warming {
  const lagS = dice.scaled(60, 400);
  const high = dice.between(0.3, 1) * mostK;
  const lit = new Float64Array(Math.ceil(1.3 * holdS) + 2);
  let shines = dice.happens(0.5);
  let wall = shines ? high : 0;
  const first = wall;
  let nextS = dice.scaled(60, 900);
  for (let s = 0; s < lit.length; s++) {
    if (s >= nextS) {
      shines = !shines;
      nextS = s + dice.scaled(60, 900);
    }
    wall += ((shines ? high : 0) - wall) / lagS;
    lit[s] = wall - first;
  }
  return (s) => lit[Math.min(Math.floor(s), lit.length - 1)]!;
}

/** The wall runs towards another temperature. */
export function towards(byK: number, lagS: number): Warming {
  return (s) => -byK * Math.expm1(-s / lagS);
}
