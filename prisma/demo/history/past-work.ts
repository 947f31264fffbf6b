import type { EntryContent, EvidenceOf } from "@/lib/hvac/procedure";
import type { PersonId } from "@/lib/ids";
import { afterHold, hold, upToEvacuation } from "../evidence";
import type { PastKind, ProofStory } from "./draw-past";

const DAY_MS = 86_400_000;

export interface TabletWork {
  readonly story: ProofStory;
  readonly kind: PastKind;
  readonly startedAt: Date;
  readonly technician: PersonId;
}

/** What the tablet writes for such a job, in order; the answer to an override asked comes from elsewhere. */
export function fieldWork({ story, kind, startedAt, technician }: TabletWork): (EntryContent | "close")[] {
  const overdue = story === "gauge-overdue";
  const due = new Date(startedAt.getTime() + (overdue ? -25 : 120) * DAY_MS).toISOString().slice(0, 10);
  const steps = [
    ...upToEvacuation(startedAt),
    story === "hold-allowed" ? hold(49, 330, 260, 240) : hold(181, 310, 160, 260),
  ];
  const asked: EntryContent = {
    kind: "override-asked",
    body: { step: "hold", why: "The cold room warms up; the reading was flattening." },
  };
  return [...steps, ...(story === "hold-allowed" ? [asked] : []), ...afterHold(technician)].map((content) =>
    content === "close" ? content : told(content, story, kind, due),
  );
}

const worked = {
  leak_repair: { work: "Leak at the flare found and remade", parts: [{ name: "Liquid line drier", serial: null }] },
  compressor_change: null,
  pump_down_service: { work: "Expansion valve changed", parts: [{ name: "Expansion valve", serial: null }] },
} as const;

/** The same work as this story has it. */
function told(content: EntryContent, story: ProofStory, kind: PastKind, due: string): EntryContent {
  if (content.kind !== "step-recorded") return content;
  const { step, evidence } = content.body as { step: string; evidence: Record<string, unknown> };
  const gauge = evidence.gauge as object | undefined;
  const record = evidence.record as EvidenceOf<"hold">["record"] | undefined;
  const more = {
    ...(gauge && { gauge: { ...gauge, calibrationDueOn: due } }),
    ...(step === "open_repair" && (worked[kind] ?? {})),
    ...(step === "evacuate" && story === "cores-left-in" && { coresOut: false }),
    ...(step === "hold" &&
      story === "typed-hold" &&
      record?.kept === "inline" && {
        source: "typed",
        record: { ...record, readings: record.readings.filter((_, index) => index % 12 === 0) },
      }),
    ...(step === "pressure_test" &&
      record?.kept === "inline" && {
        record: { ...record, readings: record.readings.filter((_, index) => index % 4 === 0) },
      }),
  };
  return { ...content, body: { step, evidence: { ...evidence, ...more } } } as unknown as EntryContent;
}
