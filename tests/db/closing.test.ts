import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { listEntries } from "@/lib/db/entries";
import { readJob } from "@/lib/db/job-summary";
import { receiveEntries } from "@/lib/db/receive-entries";
import { withTenant } from "@/lib/db/tenant";
import { HOLD_RULES_VERSION } from "@/lib/hvac";
import type { EntryContent, StepId } from "@/lib/hvac/procedure";
import { EntryId, InstallationId, type JobId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { headsOf, makeEntry, nextSeq } from "@/lib/sync/protocol";
import { afterHold, hold, upToEvacuation } from "@/prisma/demo/evidence";
import { anotherJob, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
  // The walk below tests at nine tenths of this design pressure.
  await withTenant(database.alder.company, (tx) => tx.circuit.updateMany({ data: { lowSideDesignKpaGauge: 1724 } }));
});
afterAll(() => database.drop());

const installation = InstallationId.parse(uuidv7());

/** Writes the contents as a tablet would, one parcel each; the last answer. */
async function write(job: JobId, contents: readonly (EntryContent | "close")[]) {
  const { company, technician } = database.alder;
  const author = { company, job, installation, person: technician.personId };
  let answer: Awaited<ReturnType<typeof receiveEntries>> | undefined;
  for (const given of contents) {
    answer = await withTenant(company, async (tx) => {
      const log = await listEntries(tx, job);
      const heads = headsOf(log);
      const content: EntryContent =
        given === "close" ? { kind: "job-closed", body: { heads, digest: closingDigest(log, heads) } } : given;
      const writing = {
        id: EntryId.parse(uuidv7()),
        seq: nextSeq(log, author),
        heads,
        deviceAt: new Date().toISOString(),
        clockOffsetMs: 0,
      };
      return receiveEntries(tx, technician, [makeEntry(author, writing, content)]);
    });
    expect(answer.quarantined).toEqual([]);
  }
  return answer!;
}

const stateOf = (job: JobId) =>
  withTenant(database.alder.company, async (tx) => {
    const row = await tx.circuitJob.findFirstOrThrow({ where: { id: job } });
    return { row, read: await readJob(tx, job) };
  });

const sound = hold(181, 310, 160, 260);
const statusOf = (read: Awaited<ReturnType<typeof readJob>>, step: StepId) =>
  read.state.steps.find((each) => each.step === step)?.status;

describe("closing, by whatever client", () => {
  test("is refused with what is missing while the job is not proven, and the job stays open", async () => {
    const job = await anotherJob(database.alder);
    const answer = await write(job, ["close"]);
    expect(answer.withoutEffect).toMatchObject([{ code: "close-not-proven" }]);
    expect(answer.withoutEffect[0]!.missing).toContain("Isolated hold: not recorded yet.");
    expect((await stateOf(job)).row.state).toBe("open");
  });

  test("closes a proven job on the verdicts of that day, and a later entry opens it again", async () => {
    const job = await anotherJob(database.alder);
    const on = new Date();
    const answer = await write(job, [...upToEvacuation(on), sound, ...afterHold(database.alder.technician.personId)]);
    expect(answer.withoutEffect).toEqual([]);
    const { row } = await stateOf(job);
    expect(row).toMatchObject({ state: "closed", strength: "strong" });
    const { verdicts } = row.summary as { verdicts: Record<string, { verdict: string }> };
    expect(Object.values(verdicts).map((each) => each.verdict)).toContain("dry-and-tight");

    await write(job, [{ kind: "note", body: { text: "The gate was left open.", photos: [] } }]);
    const after = await stateOf(job);
    expect(after.row.state).toBe("open");
    expect(after.read.state.certificate).toBe("stale");
    expect(statusOf(after.read, "hold")).toBe("proven");
  });

  test("[L21] a closed job stays as it was judged, though the judges say otherwise today", async () => {
    const job = await anotherJob(database.alder);
    await write(job, [...upToEvacuation(new Date()), sound, ...afterHold(database.alder.technician.personId)]);
    await withTenant(database.alder.company, async (tx) => {
      const { summary } = await tx.circuitJob.findFirstOrThrow({ where: { id: job } });
      const kept = JSON.parse(JSON.stringify(summary).replaceAll(`"${HOLD_RULES_VERSION}"`, '"hold-0"'));
      await tx.circuitJob.updateMany({ where: { id: job }, data: { summary: kept } });
    });
    const { read } = await stateOf(job);
    expect(read.state.status).toBe("closed");
    expect(read.state.steps.find((each) => each.step === "hold")?.verdict?.rulesVersion).toBe("hold-0");
  });
});
