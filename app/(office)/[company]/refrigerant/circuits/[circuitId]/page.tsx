import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { BookMass } from "@/components/registry/measures";
import { RegisterForm } from "@/components/registry/register-form";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { SubmitButton } from "@/components/ui/submit-button";
import { Table } from "@/components/ui/table";
import { requireMember } from "@/lib/auth/session";
import { findCircuit } from "@/lib/db/circuits";
import { readCircuitFacts } from "@/lib/db/refrigerant/circuit-facts";
import { readStandings } from "@/lib/db/refrigerant/duties";
import { listLawEvents } from "@/lib/db/refrigerant/law-events";
import { withTenant } from "@/lib/db/tenant";
import { byDueDay, DEFERRAL, type Duty, type Standing } from "@/lib/duties";
import { CircuitId } from "@/lib/ids";
import { unitSystemOf } from "@/lib/registry/company";
import { eventWords } from "@/lib/work/refrigerant-words";
import { dateInFull, dayAt } from "@/lib/work/site-time";
import { dutyColumns, type ShownDuty, SourceWords } from "../../_components/duty-columns";
import { eventParts, factParts, factValues, givenUpParts } from "./_components/circuit-parts";
import { changeFacts, giveUp, recordEvent, withdrawEvent } from "./actions";

export const metadata: Metadata = { title: "A circuit and the law" };

/** One circuit: whether the rules hold it, its leak rates, what is due and done, and its records for an inspector. */
export default async function CircuitLawPage(props: {
  params: Promise<{ company: string; circuitId: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { company, circuitId } = await props.params;
  const member = await requireMember(company, "supervisor", "owner");
  const query = await props.searchParams;
  const id = CircuitId.safeParse(circuitId);
  if (!id.success) notFound();
  const read = await withTenant(member.companyId, async (tx) => {
    const circuit = await findCircuit(tx, id.data);
    if (!circuit) return null;
    const [found] = await readStandings(tx, [id.data]);
    const facts = await readCircuitFacts(tx, id.data);
    return { circuit, facts, found: found ?? null, events: await listLawEvents(tx, id.data) };
  });
  if (!read) notFound();
  const { circuit, facts, found, events } = read;
  const { site } = circuit.equipment;
  const system = unitSystemOf(member.ruleSet);
  const today = dayAt(new Date(), site.timeZone);
  const here = `/${company}/refrigerant/circuits/${circuitId}`;
  const records = `${here}/records`;
  const standing = found?.standing;
  const duties = [...(standing?.duties ?? [])].sort(
    (a, b) => Number(a.doneOn !== null) - Number(b.doneOn !== null) || byDueDay(a, b),
  );
  const columns = dutyColumns(
    (duty: Duty): ShownDuty => duty,
    () => today,
  );
  const unit = system === "us" ? "lb" : "kg";
  const taking = events.find(({ id: each, stands, jobId }) => each === query.withdraw && stands && jobId === null);
  return (
    <>
      <PageHeader
        title={`${circuit.equipment.name}, ${circuit.name}`}
        lead={`${site.customer.name}, ${site.name}. ${DEFERRAL}`}
        back={{ href: `/${company}/refrigerant/due`, label: "What is due" }}
        actions={
          <LinkButton href={`/${company}/equipment/${circuit.equipment.id}`}>The unit in the register</LinkButton>
        }
      />
      <Facts
        items={[
          { term: "Under the rules", value: standing ? <Covered standing={standing} /> : "The circuit is archived." },
          { term: "Refrigerant", value: found?.circuit.refrigerant ?? "not known" },
          {
            term: "Full charge",
            value: found?.circuit.fullChargeKg ? (
              <BookMass grams={Math.round(found.circuit.fullChargeKg * 1000)} system={system} />
            ) : (
              "not on record"
            ),
          },
          ...(standing?.carbonDioxideEquivalentT != null
            ? [{ term: "CO2 equivalent", value: `${standing.carbonDioxideEquivalentT.toFixed(1)} t` }]
            : []),
        ]}
      />
      <Section title="Due and done" lead="Days are the site's.">
        <Table
          caption="Duties, open ones first"
          captionHidden
          rows={duties}
          rowKey={({ code, since }) => `${code} ${since}`}
          narrow="cards"
          empty={<EmptyState title="Nothing is asked of this circuit" />}
          columns={[columns.what, columns.due, columns.whose, columns.source]}
        />
      </Section>
      <Section title="Leak rate at each addition">
        <Table
          caption="Net of what was recovered in the same service"
          rows={[...(standing?.rates ?? [])].reverse()}
          rowKey={({ on }) => on}
          narrow="cards"
          empty={<EmptyState title="No refrigerant was added on record" />}
          columns={[
            { key: "on", header: "Day", cell: ({ on }) => dateInFull(on) },
            {
              key: "added",
              header: "Added",
              numeric: true,
              cell: ({ grams }) => <BookMass grams={grams} system={system} />,
            },
            {
              key: "rate",
              header: "A year",
              numeric: true,
              cell: ({ fraction }) => `${(fraction * 100).toFixed(1)} %`,
            },
            { key: "method", header: "Method", cell: ({ method }) => method },
            {
              key: "trigger",
              header: "Trigger",
              cell: ({ above, triggerFraction }) =>
                triggerFraction === null ? (
                  "none"
                ) : (
                  <StateMark
                    state={above ? "refused" : "proven"}
                    word={`${above ? "above" : "not above"} ${(triggerFraction * 100).toFixed(0)} %`}
                  />
                ),
            },
          ]}
        />
      </Section>
      <Section
        title="Record what was done"
        lead="A repair and the initial test of a closed leak repair come from its log by themselves."
      >
        <RegisterForm
          action={recordEvent}
          hidden={{ company, circuitId }}
          parts={eventParts(member.ruleSet)}
          values={{ on: today, kind: member.ruleSet === "eu" ? "leak-check" : "repair" }}
          submit="Record it"
          saved="Recorded"
          again
        />
      </Section>
      {taking && (
        <Section
          title={`Take back: ${eventWords[taking.kind] ?? taking.kind}, ${dateInFull(taking.happenedOn)}`}
          lead="It stays on the record with your reason, and counts no more."
        >
          <RegisterForm
            action={withdrawEvent}
            hidden={{ company, eventId: taking.id }}
            parts={[{ fields: [{ name: "why", label: "Why", kind: "text", wide: true }] }]}
            values={{}}
            submit="Take it back"
            cancel={here}
            saved="Taken back"
          />
        </Section>
      )}
      <Section title="On record">
        <Table
          caption="Events, the newest first"
          captionHidden
          rows={events}
          rowKey={({ id: each }) => each}
          narrow="cards"
          empty={<EmptyState title="Nothing is on record yet" />}
          columns={[
            { key: "on", header: "Day", cell: ({ happenedOn }) => dateInFull(happenedOn) },
            {
              key: "kind",
              header: "What",
              cell: ({ kind, stands }) =>
                `${eventWords[kind] ?? kind}${stands || kind === "withdrawn" ? "" : " (superseded)"}`,
            },
            {
              key: "result",
              header: "Result",
              cell: ({ passed }) =>
                passed === null ? (
                  "–"
                ) : (
                  <StateMark state={passed ? "proven" : "refused"} word={passed ? "passed" : "failed"} />
                ),
            },
            {
              key: "by",
              header: "By",
              cell: ({ doneBy, certificate }) => [doneBy, certificate].filter(Boolean).join(", ") || "–",
            },
            {
              key: "method",
              header: "Method",
              cell: ({ method, note }) => [method, note].filter(Boolean).join(". ") || "–",
            },
            {
              key: "back",
              header: "Wrong",
              cell: ({ id: each, stands, jobId, kind }) =>
                !stands || kind === "withdrawn" ? (
                  <span className="text-ink-soft">–</span>
                ) : jobId !== null ? (
                  <Link href={`/${company}/jobs/${jobId}`}>From a job's log</Link>
                ) : (
                  <Link href={`${here}?withdraw=${each}`}>Take it back</Link>
                ),
            },
          ]}
        />
      </Section>
      <Section
        title="Records for an inspector"
        lead="Masses, leak rates, tests and inspections with names, certificates, methods, sources and digests. The customer gets the same."
      >
        <form action={records} className="flex flex-wrap items-end gap-3">
          <label className="grid gap-1">
            <span className="font-medium">From</span>
            <input
              type="date"
              name="from"
              required
              defaultValue={`${Number(today.slice(0, 4)) - (member.ruleSet === "eu" ? 5 : 3)}${today.slice(4)}`}
              className="control"
            />
          </label>
          <label className="grid gap-1">
            <span className="font-medium">To</span>
            <input type="date" name="to" required defaultValue={today} className="control" />
          </label>
          <SubmitButton kind="quiet" name="form" value="pdf">
            As PDF
          </SubmitButton>
          <SubmitButton kind="quiet" name="form" value="csv">
            As CSV
          </SubmitButton>
        </form>
      </Section>
      <Section
        title="What the rules ask about it"
        lead="Until it is filled in: the full charge is the register's factory charge, and it was installed on the day it came into the books."
      >
        <RegisterForm
          action={changeFacts}
          hidden={{ company, circuitId, massUnit: unit }}
          parts={factParts(member.ruleSet, unit)}
          values={factValues(facts, unit)}
          submit="Save"
          saved="Saved, and computed anew"
        />
      </Section>
      <Section
        title="Given up"
        lead="Where an appliance is disposed of: who takes it and under which number. What was recovered from it goes with the record by itself."
      >
        <RegisterForm
          action={giveUp}
          hidden={{ company, circuitId }}
          parts={givenUpParts}
          values={{ on: today }}
          submit="Write it down"
          saved="Written down"
          again
        />
      </Section>
    </>
  );
}

function Covered({ standing }: { standing: Standing }) {
  const { text, source, mark } = standing.coverage;
  return (
    <span>
      {text} <SourceWords source={source} mark={mark} />
    </span>
  );
}
