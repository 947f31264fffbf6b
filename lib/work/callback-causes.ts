/** Why a return was ours, in a short list of the program's own; a company adds what it misses. */
export const callbackCauseWord = {
  "leak-at-worked-joint": "Leak at a joint we made",
  "leak-not-found": "Leak that was there and not found",
  "moisture-left": "Moisture left in the circuit",
  "air-left": "Air or nitrogen left in the circuit",
  "wrong-charge": "Too much or too little refrigerant",
  "contamination-left": "Acid, flux or dirt left in the circuit",
  "part-failed": "A part we fitted failed",
  "wrong-diagnosis": "The first cause was not the cause",
  "electrical-or-control": "Wiring or a control we touched",
  "left-unfinished": "Something left undone or not explained",
} as const;
export type CallbackCauseCode = keyof typeof callbackCauseWord;

export const callbackCauseCodes = Object.keys(callbackCauseWord) as CallbackCauseCode[];

export function isCallbackCauseCode(value: string): value is CallbackCauseCode {
  return Object.hasOwn(callbackCauseWord, value);
}
