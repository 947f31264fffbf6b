import * as z from "zod";
import { requiredLine, requiredNumber, timeZone } from "./fields";

export const RULE_SETS = ["us", "eu"] as const;
export type RuleSet = (typeof RULE_SETS)[number];

export const companyForm = z.strictObject({
  name: requiredLine(200, "Give the company's name."),
  timeZone,
  ruleSet: z.enum(RULE_SETS),
  callbackWindowDays: requiredNumber({ min: 1, max: 730, whole: true }, "Give the number of days."),
});
export type CompanyFields = z.output<typeof companyForm>;

export type UnitSystem = "us" | "si";

/** The units a company's office reads and types in, by the rules it works under. */
export function unitSystemOf(ruleSet: RuleSet): UnitSystem {
  return ruleSet === "us" ? "us" : "si";
}
