import "server-only";
import { createTransport } from "nodemailer";
import { mailSettings } from "@/lib/env";

export interface Mail {
  /** Stands in the message's own id: a server or reader that sees it twice shows it once. */
  readonly id: string;
  readonly fromName: string;
  readonly to: string;
  readonly subject: string;
  readonly body: string;
}

/**
 * What became of a mail. `unsure`: the connection broke after the text was handed over, and it may be on its way;
 * it is never sent again, a person decides.
 */
export type MailOutcome =
  | { readonly became: "sent" | "kept" | "unsure" }
  | { readonly became: "put-off" | "refused"; readonly why: string };

export type SendMail = (mail: Mail) => Promise<MailOutcome>;

/** By SMTP where SMTP_URL says so; else nothing leaves the house, the log says that there was a message, and the outbox keeps it. */
export function configuredMail(): SendMail {
  const settings = mailSettings();
  if (settings === null)
    return async ({ id }) => {
      console.log(`message ${id} kept in the outbox: no SMTP_URL is set`);
      return { became: "kept" };
    };
  return mailBySmtp(settings);
}

export function mailBySmtp({ url, from }: { readonly url: string; readonly from: string }): SendMail {
  const timeouts = { connectionTimeout: 15_000, greetingTimeout: 15_000, socketTimeout: 60_000 };
  return async ({ id, fromName, to, subject, body }) => {
    const talk = watchTalk();
    const transport = createTransport({ url, ...timeouts, debug: true, logger: talk.logger });
    try {
      await transport.sendMail({
        messageId: `<${id}@${from.split("@")[1]}>`,
        from: { name: fromName, address: from },
        to: { name: "", address: to },
        subject,
        text: body,
        headers: { "Auto-Submitted": "auto-generated" }, // RFC 3834: no machine answers a machine
      });
      return { became: "sent" };
    } catch (problem) {
      return outcomeOf(problem, talk.gaveText());
    }
  };
}

/** Writes nothing down; notes whether the text was about to be handed over, which the errors of the library do not say. */
function watchTalk() {
  let gave = false;
  const watch = (_entry: unknown, line?: unknown) => {
    if (line === "DATA") gave = true;
  };
  const quiet = () => {};
  const logger = { level: quiet, trace: quiet, debug: watch, info: quiet, warn: quiet, error: quiet, fatal: quiet };
  return { logger, gaveText: () => gave };
}

/** 5xx is for good, 4xx for now; a connection that broke before the text was handed over is for now too. @source RFC 5321, 4.2.1 */
function outcomeOf(problem: unknown, gaveText: boolean): MailOutcome {
  const { responseCode, code } = problem as { responseCode?: number; code?: string };
  if (responseCode !== undefined)
    return { became: responseCode >= 500 ? "refused" : "put-off", why: `smtp-${responseCode}` };
  return gaveText ? { became: "unsure" } : { became: "put-off", why: (code ?? "no-connection").toLowerCase() };
}
