import { readFileSync } from "node:fs";
import type { CertificateFonts } from "@/components/certificate/letters";

const read = (cut: string) =>
  new Uint8Array(
    readFileSync(
      `node_modules/@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-${cut}-normal.woff`,
    ),
  );

export const fontFiles = (): CertificateFonts => ({
  regular: read("latin-400"),
  regularExt: read("latin-ext-400"),
  bold: read("latin-700"),
  boldExt: read("latin-ext-700"),
});
