import { RegisterForm } from "@/components/registry/register-form";
import { Link } from "@/components/ui/link";
import { Section } from "@/components/ui/section";
import { SubmitButton } from "@/components/ui/submit-button";
import { fromColumn } from "@/lib/db/calendar-date";
import type { listMaintenancePlans } from "@/lib/db/maintenance";
import { dayOfTime } from "@/lib/work/periodic-maintenance";
import { dateWords } from "@/lib/work/site-time";
import { addPlan, endPlan } from "../../maintenance-actions";

/** What is done on the unit every so many months, and when next; the office may add and end plans. */
export function Maintenance(props: {
  company: string;
  equipmentId: string;
  circuits: readonly { readonly id: string; readonly name: string }[];
  plans: Awaited<ReturnType<typeof listMaintenancePlans>>;
  mayChange: boolean;
}) {
  const { company, equipmentId, circuits, plans, mayChange } = props;
  return (
    <Section title="Maintenance" lead="Each time becomes a call at the board's edge four weeks ahead.">
      {plans.length === 0 && <p className="text-ink-soft">Nothing is done here regularly.</p>}
      <ul className="grid">
        {plans.map((plan) => (
          <li
            key={plan.id}
            className="flex flex-wrap items-baseline justify-between gap-3 border-b border-hairline py-2"
          >
            <span className="grid">
              <span>
                <span className="font-semibold">{plan.what}</span>
                {plan.circuit && `, ${plan.circuit.name}`}
              </span>
              <span className="text-small text-ink-soft">
                every {plan.everyMonths === 1 ? "month" : `${plan.everyMonths} months`}, within{" "}
                {plan.windowWeeks === 1 ? "a week" : `${plan.windowWeeks} weeks`} from{" "}
                {dateWords(dayOfTime({ ...plan, firstDue: fromColumn(plan.firstDue)! }, plan.timesCalled))}
                {plan.lastCall && (
                  <>
                    {"; last "}
                    <Link href={`/${company}/calls/${plan.lastCall.id}`}>call {String(plan.lastCall.number)}</Link>
                  </>
                )}
              </span>
            </span>
            {mayChange && (
              <form action={endPlan}>
                <input type="hidden" name="company" value={company} />
                <input type="hidden" name="planId" value={plan.id} />
                <SubmitButton kind="plain">
                  End<span className="sr-only"> {plan.what}</span>
                </SubmitButton>
              </form>
            )}
          </li>
        ))}
      </ul>
      {mayChange && (
        <details>
          <summary className="min-h-8 cursor-pointer font-semibold">Add a plan</summary>
          <RegisterForm
            action={addPlan}
            hidden={{ company, equipmentId }}
            values={{ everyMonths: "6", windowWeeks: "2" }}
            submit="Add the plan"
            saved="Plan added"
            again
            parts={[
              {
                fields: [
                  { name: "what", label: "What is done", kind: "text", wide: true },
                  {
                    name: "circuitId",
                    label: "On which circuit",
                    kind: "select",
                    emptyChoice: "The whole unit",
                    choices: circuits.map(({ id, name }) => ({ value: id, label: name })),
                  },
                  { name: "everyMonths", label: "Every", kind: "number", unit: "months" },
                  { name: "firstDue", label: "First on", kind: "date" },
                  { name: "windowWeeks", label: "Within", kind: "number", unit: "weeks" },
                ],
              },
            ]}
          />
        </details>
      )}
    </Section>
  );
}
