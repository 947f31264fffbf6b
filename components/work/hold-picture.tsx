import type { PictureUnit } from "@/components/vacuum-picture/scale";
import { VacuumPicture } from "@/components/vacuum-picture/vacuum-picture";
import { holdSubject, type MeasuredHold } from "./hold-subject";

/** A recorded hold drawn as it was measured, with the engine's band, level and sentence. */
export function HoldPicture({ title, unit = "micron", ...hold }: MeasuredHold & { title: string; unit?: PictureUnit }) {
  const { subject, verdict } = holdSubject(hold);
  return <VacuumPicture title={title} unit={unit} closeUp alsoNarrow {...subject} verdict={verdict} />;
}
