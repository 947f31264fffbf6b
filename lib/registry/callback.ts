import * as z from "zod";
import { optionalNumber, paragraph, requiredLine } from "./fields";

const money = optionalNumber({ min: 0, max: 10_000_000 }).transform((amount) =>
  amount === null ? null : Math.round(amount * 100),
);

export const confirmForm = z.strictObject({
  orderId: z.uuid(),
  version: z.coerce.number().int(),
  originJobId: z.uuid("Choose the job it comes from."),
  cause: z.string().min(1, "Choose the cause.").max(40),
  workHours: optionalNumber({ min: 0, max: 10_000 }),
  travel: money,
  refrigerant: money,
  parts: money,
  goodwill: money,
  note: paragraph(2000),
});

export const notRelatedForm = z.strictObject({
  orderId: z.uuid(),
  version: z.coerce.number().int(),
  note: paragraph(2000),
});

export const causeForm = z.strictObject({ words: requiredLine(120, "Say the cause in a few words.") });

export const callbackRuleForm = z.strictObject({
  hourCost: money,
  currency: z
    .string()
    .trim()
    .toUpperCase()
    .regex(/^[A-Z]{3}$/, "Three letters, such as USD or EUR."),
});
