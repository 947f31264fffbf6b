import type { Entry, StepRecord } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import type { AttachmentId } from "@/lib/ids";

export interface NamedPicture {
  readonly id: AttachmentId;
  readonly kind: "photo" | "signature";
  /** What it shows, in a few words. */
  readonly words: string;
}

/** The pictures an entry names, in its order. */
export function picturesOf(entry: Entry): NamedPicture[] {
  switch (entry.kind) {
    case "note":
      return entry.body.photos.map(({ attachment }) => ({ id: attachment, kind: "photo", words: "Note" }));
    case "work-agreed":
      return entry.body.signature
        ? [{ id: entry.body.signature.attachment, kind: "signature", words: "Signature for the agreement" }]
        : [];
    case "step-skipped":
      return entry.body.photos.map(({ attachment }) => ({
        id: attachment,
        kind: "photo",
        words: `${stepName(entry.body.step)}, left out`,
      }));
    case "step-recorded":
      return picturesOfStep(entry.body);
    default:
      return [];
  }
}

/** The photos of a step's record, and the customer's signature under the last. */
export function picturesOfStep(record: StepRecord): NamedPicture[] {
  const { evidence, step } = record;
  const photos = "photos" in evidence ? evidence.photos : [];
  const shown = photos.map(
    ({ attachment, shows }): NamedPicture => ({
      id: attachment,
      kind: "photo",
      words: shows ? `${stepName(step)}: ${shows}` : stepName(step),
    }),
  );
  if (record.step !== "records" || record.evidence.customerSignature === null) return shown;
  const { attachment } = record.evidence.customerSignature;
  return [...shown, { id: attachment, kind: "signature", words: "Signature for the customer" }];
}
