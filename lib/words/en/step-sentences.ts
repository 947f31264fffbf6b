/** What to do at each step, in one sentence, by the step's code. */
export const stepSentencesWords = {
  make_safe: "Lock the unit out, prove it dead, and make the place safe before a hose goes on.",
  recover: "Recover the refrigerant to the required level, wait, and read the gauge again.",
  open_repair: "Open the circuit, do the repair, and name every joint you touched.",
  pressure_test: "Raise dry nitrogen in steps to the test pressure, close the cylinder, and hold.",
  leak_check: "Check every joint that was touched while the nitrogen is in.",
  evacuate: "Let the nitrogen out and pump down to the target.",
  hold: "Close the valve to the pump and read the gauge while the circuit stands.",
  break_and_charge: "Break the vacuum with refrigerant and weigh the charge in.",
  close: "Put cores and caps back and check the ports.",
  performance: "Run the system until it is steady and read it.",
  records: "Sign for the work and leave the label on the unit.",
};
