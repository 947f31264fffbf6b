import * as z from "zod";
import { CompanyId, EntryId, InstallationId, JobId, PersonId } from "@/lib/ids";
import { circuitFacts, jobKind, refrigerantFact, text } from "./circuit-schema";
import { criteriaRow } from "./criteria-schema";
import {
  attachment,
  chargeEvidence,
  closeEvidence,
  evacuateEvidence,
  holdEvidence,
  leakCheckEvidence,
  makeSafeEvidence,
  openRepairEvidence,
  performanceEvidence,
  pressureTestEvidence,
  recordsEvidence,
  recoverEvidence,
} from "./evidence-schema";
import { ROLES, STEP_IDS } from "./step";

/*
 * The entry as it crosses the wire. Nothing here transforms, trims or fills in: what is parsed is what was sent,
 * byte for byte, because digests are taken over it. Unknown keys are refused, so a stamp or a role cannot be smuggled in.
 */

export const stepId = z.enum(STEP_IDS);
export const role = z.enum(ROLES);

const recorded = <S extends (typeof STEP_IDS)[number], E extends z.ZodType>(step: S, evidence: E) =>
  z.strictObject({ step: z.literal(step), evidence });

export const stepRecordedBody = z.discriminatedUnion("step", [
  recorded("make_safe", makeSafeEvidence),
  recorded("recover", recoverEvidence),
  recorded("open_repair", openRepairEvidence),
  recorded("pressure_test", pressureTestEvidence),
  recorded("leak_check", leakCheckEvidence),
  recorded("evacuate", evacuateEvidence),
  recorded("hold", holdEvidence),
  recorded("break_and_charge", chargeEvidence),
  recorded("close", closeEvidence),
  recorded("performance", performanceEvidence),
  recorded("records", recordsEvidence),
]);

/** Why a step is not done, with what that reason has to show. */
export const skipGrounds = z.discriminatedUnion("reason", [
  z.strictObject({ reason: z.literal("circuit-not-opened"), sealsIntact: z.boolean(), statement: text(1000) }),
  z.strictObject({ reason: z.literal("no-port-touched"), capsIntact: z.boolean(), statement: text(1000) }),
  z.strictObject({
    reason: z.literal("no-refrigerant-in-line-set"),
    serviceValvesClosed: z.boolean(),
    statement: text(1000),
  }),
  z.strictObject({ reason: z.literal("other"), statement: text(1000) }),
]);

export const jobOpenedBody = z.strictObject({
  kind: jobKind,
  templateVersion: z.int().positive(),
  circuit: circuitFacts,
  criteria: z.array(criteriaRow).max(40),
});
/** What the customer agreed to before the circuit is opened. It settles no step: whether work is paid for is no proof of it. */
export const workAgreedBody = z.strictObject({
  by: text(120),
  how: z.enum(["signed-here", "spoken-here", "by-phone", "with-office"]),
  scope: text(1000),
  limit: z
    .strictObject({ amount: z.number().positive().max(10_000_000), currency: z.string().regex(/^[A-Z]{3}$/) })
    .nullable(),
  signature: attachment.nullable(),
});

export const stepSkippedBody = z.strictObject({
  step: stepId,
  grounds: skipGrounds,
  photos: z.array(attachment).max(20),
});

const supersedes = z.strictObject({ entry: EntryId, why: text(1000) });

const envelope = {
  id: EntryId,
  company: CompanyId,
  job: JobId,
  installation: InstallationId,
  person: PersonId,
  seq: z.int32().positive(),
  heads: z.array(EntryId).max(200),
  deviceAt: z.iso.datetime(),
  clockOffsetMs: z.number().nullable(),
  supersedes: supersedes.exactOptional(),
};
const entryOf = <K extends string, B extends z.ZodType>(kind: K, body: B) =>
  z.strictObject({ ...envelope, kind: z.literal(kind), body });

export const entryWire = z.discriminatedUnion("kind", [
  entryOf("job-opened", jobOpenedBody),
  entryOf("job-kind-set", z.strictObject({ jobKind, why: text(1000) })),
  entryOf("refrigerant-identified", z.strictObject({ refrigerant: refrigerantFact, how: text(500) })),
  entryOf("criteria-replaced", z.strictObject({ row: criteriaRow, document: text(500) })),
  entryOf("work-agreed", workAgreedBody),
  entryOf("step-recorded", stepRecordedBody),
  entryOf("step-skipped", stepSkippedBody),
  entryOf("circuit-opened", z.strictObject({ why: text(1000) })),
  entryOf("override-asked", z.strictObject({ step: stepId, why: text(1000) })),
  entryOf("override-answered", z.strictObject({ asks: EntryId, granted: z.boolean(), why: text(1000) })),
  entryOf(
    "left-for-today",
    z.strictObject({ holding: z.enum(["nitrogen", "valved-off", "charged"]), tag: text(200), note: text(2000) }),
  ),
  entryOf("work-resumed", z.strictObject({ note: text(2000).nullable() })),
  entryOf("note", z.strictObject({ text: text(4000), photos: z.array(attachment).max(20) })),
  entryOf(
    "job-closed",
    z.strictObject({ heads: z.array(EntryId).min(1).max(200), digest: z.string().regex(/^[0-9a-f]{64}$/) }),
  ),
]);

/** What the server adds on receipt and nobody else. */
export const entryStamp = z.strictObject({
  receivedSeq: z.int().positive(),
  receivedAt: z.iso.datetime(),
  roles: z.array(role).max(ROLES.length),
});
