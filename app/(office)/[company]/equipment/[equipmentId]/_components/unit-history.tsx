import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { type Happening, Timeline } from "@/components/ui/timeline";
import { CallState, JobStateMark, OrderState, StrengthMark } from "@/components/work/marks";
import type { listUnitHistory } from "@/lib/db/equipment";
import { whenInFull } from "@/lib/work/site-time";

type History = Awaited<ReturnType<typeof listUnitHistory>>;

/** Calls and sealed-system jobs of one unit in one line of time, newest first, each with how it ended and how well it was proven. */
export function UnitHistory(props: { company: string; history: History; timeZone: string; mayOpen: boolean }) {
  const { company, history, timeZone, mayOpen } = props;
  const link = (path: string, words: string) => (mayOpen ? <Link href={`/${company}/${path}`}>{words}</Link> : words);
  const calls = history.calls.map((call): Happening & { time: number } => ({
    id: call.id,
    time: call.takenAt.getTime(),
    at: call.takenAt.toISOString(),
    atWords: whenInFull(call.takenAt, timeZone),
    title: link(`calls/${call.id}`, `Call ${call.number}`),
    detail: (
      <span className="grid">
        <span>{call.symptom}</span>
        <span className="flex flex-wrap gap-x-4">
          <CallState state={call.state} />
          {call.workOrders.map((order) => (
            <span key={order.id}>
              {link(`work-orders/${order.id}`, `Work order ${order.number}`)} <OrderState state={order.state} />
            </span>
          ))}
        </span>
      </span>
    ),
  }));
  const jobs = history.jobs.map((job): Happening & { time: number } => ({
    id: job.id,
    time: job.openedAt.getTime(),
    at: job.openedAt.toISOString(),
    atWords: whenInFull(job.openedAt, timeZone),
    title: link(`jobs/${job.id}`, `Job ${job.number} on ${job.circuit.name}`),
    detail: (
      <span className="flex flex-wrap gap-x-4">
        <JobStateMark state={job.state} />
        <span>
          Strength of proof: <StrengthMark strength={job.strength} />
        </span>
        <span>{link(`work-orders/${job.workOrder.id}`, `Work order ${job.workOrder.number}`)}</span>
      </span>
    ),
  }));
  const happenings = [...calls, ...jobs].sort((a, b) => b.time - a.time);
  if (happenings.length === 0)
    return <EmptyState title="Nothing yet">Calls and sealed-system jobs on this unit will stand here.</EmptyState>;
  return <Timeline label="History of this unit" happenings={happenings} />;
}
