import "server-only";
import { configuredMail } from "@/lib/messages/mail";
import { sendMessage } from "@/lib/messages/send-message";
import { makeCallsAhead } from "./calls-ahead";
import { remindOfDuties } from "./remind-duties";
import type { Works } from "./run-jobs";

/** What the web processes do by themselves, by kind. Add a line, and put the job with `putJob` where it becomes necessary. */
export const works: Works = {
  once: { "send-message": sendMessage(configuredMail) },
  daily: { "calls-ahead": makeCallsAhead, "remind-duties": remindOfDuties(configuredMail) },
};
