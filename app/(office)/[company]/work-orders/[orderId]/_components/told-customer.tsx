import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { SubmitButton } from "@/components/ui/submit-button";
import type { listMessages } from "@/lib/db/customer-messages";
import { outboxWords } from "@/lib/messages/outbox-words";
import { whenInFull } from "@/lib/work/site-time";
import { makeCustomerLink, takeBackCustomerLink } from "../customer-link";

/** What the customer was told of this order's visits, and the address at which they can look. */
export function ToldCustomer(props: {
  company: string;
  orderId: string;
  timeZone: string;
  mayWrite: boolean;
  address: string | null;
  messages: Awaited<ReturnType<typeof listMessages>>;
}) {
  const { company, orderId, timeZone, mayWrite, address, messages } = props;
  return (
    <Section
      title="What the customer was told"
      lead={
        mayWrite
          ? "Promises, changes and the way there are written to the customer by themselves."
          : "The customer has not agreed to be written to, or has no e-mail address: nothing is sent."
      }
    >
      <form action={address ? takeBackCustomerLink : makeCustomerLink} className="flex flex-wrap items-center gap-3">
        <input type="hidden" name="company" value={company} />
        <input type="hidden" name="orderId" value={orderId} />
        {address ? (
          <>
            <a href={address} target="_blank" rel="noreferrer" className="break-all font-mono text-small">
              {address}
            </a>
            <SubmitButton kind="quiet">Take the customer's page back</SubmitButton>
          </>
        ) : (
          <SubmitButton kind="quiet">Make a page for the customer</SubmitButton>
        )}
      </form>
      {messages.length > 0 && (
        <ul className="grid">
          {messages.map((message) => {
            const { state, words } = outboxWords(message);
            return (
              <li key={message.id} className="border-b border-hairline py-2">
                <details>
                  <summary className="min-h-8 cursor-pointer">
                    <StateMark state={state} word={message.subject || "A message about the plan"} />{" "}
                    <span className="text-small text-ink-soft">
                      {whenInFull(message.endedAt ?? message.madeAt, timeZone)}. {words}
                    </span>
                  </summary>
                  {message.body && (
                    <p className="whitespace-pre-line py-2 pl-6 text-small">
                      {message.toAddress && `To ${message.toAddress}\n\n`}
                      {message.body.replace("{link}", "(the customer's page)")}
                    </p>
                  )}
                </details>
              </li>
            );
          })}
        </ul>
      )}
    </Section>
  );
}
