/** Cores, caps and the check of the ports. */
export const closeWords = {
  recordCoresAndCaps: "Record cores and caps",
  ports: "Ports",
  valveCoresBack: "Valve cores back in",
  capsOnWithTheir: "Caps on, with their seals",
  capsTightened: "Caps tightened",
  toTheMakersTorque: "To the maker's torque.",
  leakCheck: "Leak check of the ports",
  method: "Method",
  bubbles: "Bubbles",
  electronic: "Electronic",
  ultrasonic: "Ultrasonic",
  another: "Another",
  result: "Result",
  tight: "Tight",
  leaks: "Leaks",
  notDone: "Not done",
};
