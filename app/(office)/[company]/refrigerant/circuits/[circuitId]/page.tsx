import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { BookMass } from "@/components/registry/measures";
import { RegisterForm } from "@/components/registry/register-form";
import { LinkButton } from "@/components/ui/button";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { SubmitButton } from "@/components/ui/submit-button";
import { Table } from "@/components/ui/table";
import { requireMember } from "@/lib/auth/session";
import { findCircuit } from "@/lib/db/circuits";
import { readStandings } from "@/lib/db/refrigerant/duties";
import { listLawEvents } from "@/lib/db/refrigerant/law-events";
import { withTenant } from "@/lib/db/tenant";
import { BEARER_WORDS, byDueDay, DEFERRAL, DUTY_WORDS, MARK_WORDS } from "@/lib/duties";
import { CircuitId } from "@/lib/ids";
import { unitSystemOf } from "@/lib/registry/company";
import { eventWords, testedEvents } from "@/lib/work/refrigerant-words";
import { dateWords, dayAt } from "@/lib/work/site-time";
import { recordEvent } from "../../actions";

export const metadata: Metadata = { title: "A circuit and the law" };
const inFull = (day: string) => `${dateWords(day)} ${day.slice(0, 4)}`;

/** One circuit: whether the rules hold it, its leak rates, what is due and done, and its records for an inspector. */
export default async function CircuitLawPage(props: { params: Promise<{ company: string; circuitId: string }> }) {
  const { company, circuitId } = await props.params;
  const member = await requireMember(company, "supervisor", "owner");
  const id = CircuitId.safeParse(circuitId);
  if (!id.success) notFound();
  const read = await withTenant(member.companyId, async (tx) => {
    const circuit = await findCircuit(tx, id.data);
    if (!circuit) return null;
    const [found] = await readStandings(tx, [id.data]);
    return { circuit, found: found ?? null, events: await listLawEvents(tx, id.data) };
  });
  if (!read) notFound();
  const { circuit, found, events } = read;
  const { site } = circuit.equipment;
  const system = unitSystemOf(member.ruleSet);
  const today = dayAt(new Date(), site.timeZone);
  const records = `/${company}/refrigerant/circuits/${circuitId}/records`;
  const standing = found?.standing;
  const duties = [...(standing?.duties ?? [])].sort(
    (a, b) => Number(a.doneOn !== null) - Number(b.doneOn !== null) || byDueDay(a, b),
  );
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
          columns={[
            {
              key: "what",
              header: "What",
              cell: ({ code, text }) => (
                <span className="grid">
                  <strong>{DUTY_WORDS[code]}</strong>
                  <span className="text-small text-ink-soft">{text}</span>
                </span>
              ),
            },
            {
              key: "due",
              header: "State",
              cell: ({ doneOn, dueBy }) =>
                doneOn !== null ? (
                  <StateMark state="proven" word={`done ${inFull(doneOn)}`} />
                ) : dueBy === null ? (
                  <StateMark state="waiting" word="after the one before it" />
                ) : (
                  <StateMark
                    state={dueBy < today ? "refused" : "needs-you"}
                    word={`${dueBy < today ? "late since" : "by"} ${inFull(dueBy)}`}
                  />
                ),
            },
            { key: "whose", header: "Whose duty", cell: ({ whose }) => BEARER_WORDS[whose] },
            {
              key: "source",
              header: "Source",
              cell: ({ source, mark }) => (
                <span className="text-small">
                  {source} <span className="text-ink-soft">({MARK_WORDS[mark]})</span>
                </span>
              ),
            },
          ]}
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
            { key: "on", header: "Day", cell: ({ on }) => inFull(on) },
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
          parts={[
            {
              fields: [
                { name: "kind", label: "What", kind: "select", choices: eventChoices(member.ruleSet) },
                { name: "on", label: "Day", kind: "date" },
                {
                  name: "result",
                  label: "Result",
                  kind: "select",
                  emptyChoice: "Choose",
                  choices: [
                    { value: "passed", label: "Passed: no leak found" },
                    { value: "failed", label: "Failed: it leaks" },
                  ],
                  when: { field: "kind", is: testedEvents },
                },
                {
                  name: "method",
                  label: "Method and instrument",
                  kind: "text",
                  optional: true,
                  when: { field: "kind", is: testedEvents },
                },
                { name: "doneBy", label: "Done by", kind: "text" },
                { name: "certificate", label: "Certificate", kind: "text", optional: true },
                { name: "note", label: "Note", kind: "area", optional: true },
              ],
            },
          ]}
          values={{ on: today, kind: "repair" }}
          submit="Record it"
          saved="Recorded"
          again
        />
      </Section>
      <Section title="On record">
        <Table
          caption="Events, the newest first"
          captionHidden
          rows={events}
          rowKey={({ id: each }) => each}
          narrow="cards"
          empty={<EmptyState title="Nothing is on record yet" />}
          columns={[
            { key: "on", header: "Day", cell: ({ happenedOn }) => inFull(happenedOn) },
            {
              key: "kind",
              header: "What",
              cell: ({ kind, stands }) => `${eventWords[kind] ?? kind}${stands ? "" : " (superseded)"}`,
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
    </>
  );
}

function Covered({
  standing,
}: {
  standing: NonNullable<Awaited<ReturnType<typeof readStandings>>[number]>["standing"];
}) {
  const { text, source, mark } = standing.coverage;
  return (
    <span>
      {text}{" "}
      <span className="text-small text-ink-soft">
        {source} ({MARK_WORDS[mark]})
      </span>
    </span>
  );
}

const usEvents = [
  "repair",
  "initial-verification",
  "follow-up-verification",
  "normal-operation",
  "leak-inspection",
  "detection-fitted",
  "retrofit-plan",
  "retrofit-done",
  "chronic-report",
  "records-given",
];
const euEvents = ["leak-check", "repair", "recheck", "detection-fitted", "detection-check", "records-given"];

function eventChoices(ruleSet: "us" | "eu") {
  return (ruleSet === "us" ? usEvents : euEvents).map((kind) => ({ value: kind, label: eventWords[kind] ?? kind }));
}
