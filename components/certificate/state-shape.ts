import type { State } from "@/components/ui/state-mark";
import { stateInk } from "./paper-ink";

/** The shape of a state as on the screens, `sizePt` across with its middle at (x, y). */
export function drawState(document: PDFKit.PDFDocument, state: State, x: number, y: number, sizePt: number): void {
  const colour = stateInk[state];
  document
    .save()
    .translate(x, y)
    .scale(sizePt / 16)
    .translate(-8, -8);
  switch (state) {
    case "proven":
      document.circle(8, 8, 7).fill(colour);
      document.path("M4.6 8.3L7 10.7L11.4 5.7").lineWidth(1.9).stroke("white");
      break;
    case "working":
      document.circle(8, 8, 6).lineWidth(1.2).stroke(colour);
      document.path("M8 2A6 6 0 0 1 14 8").lineWidth(3).stroke(colour);
      break;
    case "waiting":
      document.circle(8, 8, 6).lineWidth(1.75).stroke(colour);
      break;
    case "needs-you":
      document.path("M8 1L15 8L8 15L1 8Z").fill(colour);
      break;
    case "refused":
      document.path("M5.1 1H10.9L15 5.1V10.9L10.9 15H5.1L1 10.9V5.1Z").fill(colour);
      document.path("M4.5 8H11.5").lineWidth(2).stroke("white");
      break;
    case "cannot-say":
      document.circle(8, 8, 6).lineWidth(1.75).dash(2.4, { space: 2.31 }).stroke(colour).undash();
      break;
  }
  document.restore();
}
