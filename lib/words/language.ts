import { cannotDoWords } from "./en/cannot-do";
import { certificateWords } from "./en/certificate";
import { chargeWords } from "./en/charge";
import { closeWords } from "./en/close";
import { closingWords } from "./en/closing";
import { controlsWords } from "./en/controls";
import { customerAgreementWords } from "./en/customer-agreement";
import { cylindersWords } from "./en/cylinders";
import { entriesWords } from "./en/entries";
import { evacuateWords } from "./en/evacuate";
import { fieldsWords } from "./en/fields";
import { frameWords } from "./en/frame";
import { holdWords } from "./en/hold";
import { importWords } from "./en/import";
import { instrumentsWords } from "./en/instruments";
import { jobWords } from "./en/job";
import { leakCheckWords } from "./en/leak-check";
import { makeSafeWords } from "./en/make-safe";
import { nothingHereWords } from "./en/nothing-here";
import { numberPadWords } from "./en/number-pad";
import { openRepairWords } from "./en/open-repair";
import { performanceWords } from "./en/performance";
import { picturesWords } from "./en/pictures";
import { pressureTestWords } from "./en/pressure-test";
import { problemsWords } from "./en/problems";
import { readingsWords } from "./en/readings";
import { recordWords } from "./en/record";
import { recordedWords } from "./en/recorded";
import { recordsWords } from "./en/records";
import { recoverWords } from "./en/recover";
import { signOutWords } from "./en/sign-out";
import { stepSentencesWords } from "./en/step-sentences";
import { stoppedWords } from "./en/stopped";
import { timeWords } from "./en/time";
import { todayWords } from "./en/today";
import { toolsWords } from "./en/tools";
import { vacuumPictureWords } from "./en/vacuum-picture";
import { visitWords } from "./en/visit";

/** English, the language the program is written in, by subject. What is not said in another language cannot be missing here. */
export const english = {
  cannotDo: cannotDoWords,
  certificate: certificateWords,
  charge: chargeWords,
  close: closeWords,
  closing: closingWords,
  controls: controlsWords,
  customerAgreement: customerAgreementWords,
  cylinders: cylindersWords,
  entries: entriesWords,
  evacuate: evacuateWords,
  fields: fieldsWords,
  frame: frameWords,
  hold: holdWords,
  import: importWords,
  instruments: instrumentsWords,
  job: jobWords,
  leakCheck: leakCheckWords,
  makeSafe: makeSafeWords,
  nothingHere: nothingHereWords,
  numberPad: numberPadWords,
  openRepair: openRepairWords,
  performance: performanceWords,
  pictures: picturesWords,
  pressureTest: pressureTestWords,
  problems: problemsWords,
  readings: readingsWords,
  record: recordWords,
  recorded: recordedWords,
  records: recordsWords,
  recover: recoverWords,
  signOut: signOutWords,
  stepSentences: stepSentencesWords,
  stopped: stoppedWords,
  time: timeWords,
  today: todayWords,
  tools: toolsWords,
  vacuumPicture: vacuumPictureWords,
  visit: visitWords,
};

/** What another language has to say: every word of every subject, every sentence from the same values. */
export type Language = typeof english;
