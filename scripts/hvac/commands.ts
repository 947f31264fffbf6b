import type * as z from "zod";
import { judgeHold, judgePressureTest, judgePulldown } from "@/lib/hvac";
import {
  type Answer,
  answerCautions,
  answerCharge,
  answerCylinder,
  answerEuLeakCheck,
  answerLeakRate,
  answerLeakSize,
  answerPumpOil,
  answerRecovery,
  answerRoomCharge,
  answerSaturation,
  answerSubcooling,
  answerSuperheat,
  answerTripleEvacuation,
  answerVerification,
  answerWater,
  cautionsQuestion,
  chargeQuestion,
  cylinderQuestion,
  euLeakCheckQuestion,
  holdFromWire,
  holdToWire,
  holdWire,
  leakRateQuestion,
  leakSizeQuestion,
  pressureTestFromWire,
  pressureTestToWire,
  pressureTestWire,
  pulldownFromWire,
  pulldownToWire,
  pulldownWire,
  pumpOilQuestion,
  recoveryQuestion,
  roomChargeQuestion,
  saturationQuestion,
  subcoolingQuestion,
  superheatQuestion,
  tripleEvacuationQuestion,
  verificationQuestion,
  waterQuestion,
} from "@/lib/hvac/schema";
import { ok } from "@/lib/result";
import type { AnswerLine, LineError } from "./answer-lines";

export interface Command {
  readonly says: string;
  readonly fields: readonly string[];
  readonly answer: AnswerLine;
}

/** What the command can be asked, in the order of `--help`. */
export const COMMANDS: Readonly<Record<string, Command>> = {
  hold: command("is the isolated circuit dry and tight?", holdWire, (wire) =>
    ok(holdToWire(wire.id, judgeHold(holdFromWire(wire)))),
  ),
  "pressure-test": command("does it hold nitrogen?", pressureTestWire, (wire) =>
    ok(pressureTestToWire(wire.id, judgePressureTest(pressureTestFromWire(wire)))),
  ),
  pulldown: command("when will it reach the target, and if not, why?", pulldownWire, (wire) =>
    ok(pulldownToWire(wire.id, judgePulldown(pulldownFromWire(wire)))),
  ),
  saturation: command("bubble and dew point of a refrigerant", saturationQuestion, answerSaturation),
  water: command("vapour pressure over water or ice", waterQuestion, answerWater),
  recovery: command("did enough refrigerant come out before opening?", recoveryQuestion, answerRecovery),
  cylinder: command("may this go into that recovery cylinder?", cylinderQuestion, answerCylinder),
  charge: command("charge by weight with the line set", chargeQuestion, answerCharge),
  superheat: command("superheat, its target and whether it is met", superheatQuestion, answerSuperheat),
  subcooling: command("subcooling and whether its target is met", subcoolingQuestion, answerSubcooling),
  "room-charge": command("does a flammable charge fit its room?", roomChargeQuestion, answerRoomCharge),
  "leak-rate": command("US leak rate, trigger and what is due by when", leakRateQuestion, answerLeakRate),
  verification: command("where the two tests of a repair stand", verificationQuestion, answerVerification),
  "leak-size": command("what a steady rise would lose in a year, charged", leakSizeQuestion, answerLeakSize),
  "eu-leak-check": command("how often the EU asks for a leak check", euLeakCheckQuestion, answerEuLeakCheck),
  "triple-evacuation": command(
    "what pulls and nitrogen breaks leave",
    tripleEvacuationQuestion,
    answerTripleEvacuation,
  ),
  "pump-oil": command("is the vacuum pump's oil fit for the next pull?", pumpOilQuestion, answerPumpOil),
  cautions: command("the cautions of a step", cautionsQuestion, answerCautions),
};

function command<S extends z.ZodObject>(
  says: string,
  schema: S,
  answer: (question: z.output<S>) => Answer<unknown>,
): Command {
  return {
    says,
    fields: fieldsOf(schema),
    answer: (question) => {
      const parsed = schema.safeParse(question);
      return parsed.success ? answer(parsed.data) : { ok: false, error: firstIssue(parsed.error, question) };
    },
  };
}

/** Field names of a line, those that may be left out in brackets: what an empty line is not blamed for. */
function fieldsOf(schema: z.ZodObject): string[] {
  const blamed = new Set(schema.safeParse({}).error?.issues.map(({ path }) => path[0]));
  return Object.keys(schema.shape).map((name) => (blamed.has(name) ? name : `[${name}]`));
}

/** The first thing wrong with a line, named by a code of ours and the path of the field. */
function firstIssue(error: z.ZodError, question: unknown): LineError {
  const issue = error.issues[0]!;
  const path = issue.path.map(String);
  const unknownField = issue.code === "unrecognized_keys" ? issue.keys[0]! : null;
  if (unknownField !== null) path.push(unknownField);
  return { code: issueCode(issue, question), path: path.join("."), message: issueMessage(issue, question) };
}

function issueCode(issue: z.core.$ZodIssue, question: unknown): string {
  switch (issue.code) {
    case "unrecognized_keys":
      return "unknown-field";
    case "too_big":
    case "too_small":
      return "out-of-range";
    case "custom":
      return typeof issue.params?.code === "string" ? issue.params.code : "not-allowed";
    default: {
      if (valueAt(question, issue.path) === undefined) return "missing";
      return issue.code === "invalid_type" ? "wrong-type" : "not-allowed";
    }
  }
}

function issueMessage(issue: z.core.$ZodIssue, question: unknown): string {
  if (issue.code === "custom" || issue.code === "unrecognized_keys") return issue.message;
  const found = valueAt(question, issue.path);
  if (found === undefined) return "nothing given";
  return typeof found === "number" && !Number.isFinite(found) ? "the number is not finite" : issue.message;
}

function valueAt(question: unknown, path: readonly PropertyKey[]): unknown {
  let value: unknown = question;
  for (const key of path) {
    if (typeof value !== "object" || value === null) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}
