import "server-only";
import type { LeakRateMethod } from "@/lib/duties";
import { digestOf } from "@/lib/sync/digest";
import type { InspectorRecord, RecordLine } from "@/lib/work/inspector-record";
import { causeWords, eventWords } from "@/lib/work/refrigerant-words";
import type { TenantTx } from "../tenant";
import { listPostings } from "./books";
import { leakRateMethod, readStandings } from "./duties";
import { listLawEvents } from "./law-events";

const MOST_LINES = 5000;

/** What an inspector asks of one circuit and period: masses, leak rates, tests and inspections, by whom and on what ground; or null. */
export async function readRecords(
  tx: TenantTx,
  circuitId: string,
  period: { from: string; to: string },
): Promise<InspectorRecord | null> {
  const circuit = await tx.circuit.findFirst({
    where: { id: circuitId },
    include: { equipment: { include: { site: { include: { customer: true } } } } },
  });
  if (!circuit) return null;
  const company = await tx.company.findFirstOrThrow({ select: { name: true, ruleSet: true } });
  const [found] = await readStandings(tx, [circuitId]);
  const profile = await tx.circuitDuty.findFirst({ where: { circuitId } });
  const method = await leakRateMethod(tx);
  const page = { take: MOST_LINES, skip: 0 };
  const postings = await listPostings(tx, { placeId: circuitId, ...period }, page);
  const events = await listLawEvents(tx, circuitId, period);
  const named = [...postings, ...events].flatMap((row) => {
    const id = "entry_id" in row ? row.entry_id : row.entryId;
    return id ? [id] : [];
  });
  const entries = await tx.entry.findMany({
    where: { id: { in: [...new Set(named)] } },
    select: { id: true, wire: true, person: { select: { name: true, certificates: true } } },
  });
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const evidence = (id: string | null) => {
    const entry = id === null ? undefined : byId.get(id);
    const certificate = (entry?.person.certificates ?? [])
      .map(({ kind, number }) => `${kind} ${number}`.trim())
      .join(", ");
    return { name: entry?.person.name ?? "", certificate, digest: entry ? digestOf(entry.wire) : "" };
  };
  const place = `${circuit.equipment.name}, ${circuit.name}`;
  const lines: RecordLine[] = [
    ...postings.map((row): RecordLine => {
      const shown = evidence(row.entry_id);
      const out = row.from_name === place;
      const undone =
        row.reverses !== null ? " (takes an earlier line back)" : row.reversed ? " (taken back later)" : "";
      return {
        on: row.happened_on,
        what: `${causeWords[row.cause] ?? row.cause}${undone}`,
        refrigerant: row.refrigerant,
        grams: out ? -row.grams : row.grams,
        result: out ? `to ${row.to_name}` : `from ${row.from_name}`,
        person: shown.name || (row.person ?? ""),
        certificate: shown.certificate,
        method: row.job_number ? `weighed, job ${row.job_number}` : (row.document ?? ""),
        source: "ledger",
        digest: shown.digest,
      };
    }),
    ...events.map(
      (row): RecordLine => ({
        on: row.happenedOn,
        what: `${eventWords[row.kind] ?? row.kind}${row.stands || row.kind === "withdrawn" ? "" : " (superseded)"}`,
        refrigerant: "",
        grams: null,
        result:
          row.passed === null ? row.note : `${row.passed ? "passed, tight" : "failed, leaking"} ${row.note}`.trim(),
        person: row.doneBy,
        certificate: row.certificate,
        method: row.method,
        source: row.entryId ? "job log" : "office",
        digest: evidence(row.entryId).digest,
      }),
    ),
    ...(found?.standing.rates ?? [])
      .filter(({ on }) => on >= period.from && on <= period.to)
      .map(
        (rate): RecordLine => ({
          on: rate.on,
          what: "Leak rate",
          refrigerant: circuit.actualRefrigerant ?? "",
          grams: rate.grams,
          result: `${(rate.fraction * 100).toFixed(2)} % a year${rate.above ? ", above the trigger" : ""}`,
          person: "",
          certificate: "",
          method: rate.method,
          source: found?.standing.coverage.source ?? "",
          digest: "",
        }),
      ),
  ].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
  const { site } = circuit.equipment;
  const about = {
    company: company.name,
    ruleSet: company.ruleSet as "us" | "eu",
    leakRateMethod: method as LeakRateMethod,
    appliance: place,
    identity: [circuit.equipment.maker, circuit.equipment.model, circuit.equipment.serial].filter(Boolean).join(" "),
    owner: site.customer.name,
    location: [site.name, site.street, site.city, site.region, circuit.equipment.place].filter(Boolean).join(", "),
    refrigerant: circuit.actualRefrigerant ?? circuit.nameplateRefrigerant ?? "not known",
    fullChargeKg: found?.circuit.fullChargeKg ?? null,
    fullChargeMethod: profile?.fullChargeMethod ?? "maker",
    coverage: found?.standing.coverage ?? null,
    ...period,
    lines,
    cut: postings.length === MOST_LINES,
  };
  return { ...about, digest: digestOf(about) };
}
