import type { ReactNode } from "react";
import { Link } from "@/components/ui/link";
import { Section } from "@/components/ui/section";
import { type Happening, Timeline } from "@/components/ui/timeline";
import type { readToolHistory } from "@/lib/db/tool-history";
import type { StepId } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import type { ToolEventKind } from "@/lib/registry/tool-event";
import { dateInFull, whenInFull } from "@/lib/work/site-time";
import { toolEventWord } from "./tool-parts";

type History = Awaited<ReturnType<typeof readToolHistory>>;

/** What became of a tool: written down by people, and read out of the logs that name it. */
export function ToolHistory(props: {
  company: string;
  toolId: string;
  timeZone: string;
  ultimateMicron: number | null;
  history: History;
}) {
  const { company, toolId, timeZone, ultimateMicron, history } = props;
  const { events, uses, blankOffs, jobs } = history;
  const lately = blankOffs.slice(-12);
  return (
    <>
      {lately.length > 0 && (
        <Section
          title="Blanked off"
          lead={`The lowest it reached alone, oldest first, from tests and from the logs.${
            ultimateMicron === null
              ? ""
              : ` New it reaches ${ultimateMicron} micron; twice that asks for oil or repair (common practice).`
          }`}
        >
          <ol className="flex flex-wrap gap-x-5 gap-y-1">
            {lately.map(({ id, micron, at }) => {
              const tired = ultimateMicron !== null && micron > 2 * ultimateMicron;
              return (
                <li key={id} className={tired ? "text-needs-you" : undefined}>
                  <strong className="tabular-nums">{Math.round(micron)}</strong> micron{tired && ", tired"}{" "}
                  <span className="text-small text-ink-soft">{dateInFull(at.toISOString().slice(0, 10))}</span>
                </li>
              );
            })}
          </ol>
        </Section>
      )}
      <Section title="Written down" lead="Nothing here is edited; a mistake is written over by a later line.">
        {events.length === 0 ? (
          <p className="text-ink-soft">Nothing yet.</p>
        ) : (
          <Timeline label="Written down" happenings={events.map((event) => happeningOf(company, toolId, event))} />
        )}
      </Section>
      <Section
        title="Used on jobs"
        lead={`Named by the records of ${jobs} ${jobs === 1 ? "job" : "jobs"}, the latest first.`}
      >
        {uses.length === 0 ? (
          <p className="text-ink-soft">No record names it yet.</p>
        ) : (
          <Timeline
            label="Used on jobs"
            happenings={uses.map((use): Happening => {
              const facts = [
                use.runHours !== null && `ran ${use.runHours.toFixed(1)} h`,
                use.micron !== null && `blanked off at ${Math.round(use.micron)} micron`,
                use.superseded && "corrected later, does not count",
              ].filter(Boolean);
              return {
                id: use.entryId,
                at: use.usedAt.toISOString(),
                atWords: whenInFull(use.usedAt, timeZone),
                title: <JobLink company={company} id={use.jobId} number={use.job.number} />,
                detail: [stepName(use.step as StepId), use.entry.person.name, ...facts].join(", "),
              };
            })}
          />
        )}
      </Section>
    </>
  );
}

function happeningOf(company: string, toolId: string, event: History["events"][number]): Happening {
  const { what, onDay, good, dueOn, person, note, job } = event;
  const mirrored = event.tool.id !== toolId;
  const partner = mirrored ? event.tool : event.otherTool;
  const [own, theirs] = mirrored ? [event.otherReading, event.reading] : [event.reading, event.otherReading];
  const unit = event.tool.resolutionUnit ?? "";
  const detail: ReactNode[] = [
    event.micron !== null && `${Math.round(event.micron)} micron`,
    dueOn && `due again ${dateInFull(dueOn)}`,
    partner && (
      <>
        this one {own} {unit}, <Link href={`/${company}/tools/${partner.id}`}>{partner.name}</Link> {theirs} {unit};{" "}
        {Number(event.allowed!.toPrecision(3))} {unit} apart allowed
      </>
    ),
    job && <JobLink company={company} id={job.id} number={Number(job.number)} />,
    person.name,
    note,
  ].filter(Boolean);
  return {
    id: event.id,
    at: onDay,
    atWords: dateInFull(onDay),
    title: toolEventWord[what as ToolEventKind],
    detail: detail.map((part, index) => (
      <span key={index}>
        {index > 0 && ", "}
        {part}
      </span>
    )),
    ...(!good && { state: "refused" as const, stateWord: what === "compared" ? "Too far apart" : "Not good" }),
  };
}

function JobLink({ company, id, number }: { company: string; id: string; number: number }) {
  return <Link href={`/${company}/jobs/${id}`}>Job {number}</Link>;
}
