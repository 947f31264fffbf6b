import { Link } from "@/components/ui/link";
import { Section } from "@/components/ui/section";
import { StrengthMark } from "@/components/work/marks";
import type { Intake, listLastCalls } from "@/lib/db/intake";
import { dateInFull, dayAt } from "@/lib/work/site-time";

/** What happened to this unit before, three lines or so, beside the form. */
export function UnitHistory(props: {
  company: string;
  unit: NonNullable<Intake["unit"]>;
  history: Awaited<ReturnType<typeof listLastCalls>>;
}) {
  const { unit, history } = props;
  const nameplate = [unit.maker, unit.model, unit.place].filter(Boolean).join(", ");
  return (
    <Section title={`${unit.name} before`} lead={nameplate} className="content-start">
      {history.length === 0 ? (
        <p className="text-ink-soft">Nothing is on record for this unit.</p>
      ) : (
        <ul className="grid">
          {history.map((call) => (
            <li key={call.id} className="grid gap-1 border-b border-hairline py-2">
              <span className="flex justify-between gap-4">
                <Link href={`/${props.company}/calls/${call.id}`}>Call {String(call.number)}</Link>
                <span className="text-small text-ink-soft tabular-nums">{dateInFull(dayAt(call.takenAt, "UTC"))}</span>
              </span>
              <span className="line-clamp-2">{call.symptom}</span>
              {call.workOrders.flatMap((order) =>
                order.jobs.map((job) => (
                  <span key={job.id} className="flex gap-3 text-small">
                    <Link href={`/${props.company}/jobs/${job.id}`}>Job {String(job.number)}</Link>
                    <span>
                      proof: <StrengthMark strength={job.strength} />
                    </span>
                  </span>
                )),
              )}
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}
