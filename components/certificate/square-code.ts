import qrcode from "qrcode-generator";

/** Four empty modules around the code. @source ISO/IEC 18004, quiet zone (from memory) */
const QUIET_MODULES = 4;

/** Draws an address as a square code for a camera, quiet zone included, with its upper left corner at (x, y). */
export function drawSquareCode(
  document: PDFKit.PDFDocument,
  address: string,
  x: number,
  y: number,
  sizePt: number,
): void {
  const code = qrcode(0, "M");
  code.addData(address, "Byte");
  code.make();
  const count = code.getModuleCount();
  const module = sizePt / (count + 2 * QUIET_MODULES);
  const at = (place: number) => (place + QUIET_MODULES) * module;
  for (let row = 0; row < count; row += 1) {
    for (let column = 0; column < count; column += 1) {
      if (!code.isDark(row, column)) continue;
      let end = column + 1;
      while (end < count && code.isDark(row, end)) end += 1;
      document.rect(x + at(column), y + at(row), (end - column) * module, module);
      column = end;
    }
  }
  document.fill("black");
}
