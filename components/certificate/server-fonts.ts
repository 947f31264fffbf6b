import "server-only";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import type { CertificateFonts } from "./letters";

const FOLDER = "node_modules/@fontsource/atkinson-hyperlegible-next/files";

let fonts: Promise<CertificateFonts> | undefined;

/** The font files from their package, read once a process. */
export function serverFonts(): Promise<CertificateFonts> {
  fonts ??= readFonts();
  return fonts;
}

async function readFonts(): Promise<CertificateFonts> {
  const [regular, regularExt, bold, boldExt] = await Promise.all(
    ["latin-400", "latin-ext-400", "latin-700", "latin-ext-700"].map(readCut),
  );
  return { regular: regular!, regularExt: regularExt!, bold: bold!, boldExt: boldExt! };
}

async function readCut(cut: string): Promise<Uint8Array> {
  const file = `atkinson-hyperlegible-next-${cut}-normal.woff`;
  return new Uint8Array(await readFile(join(process.cwd(), FOLDER, file)));
}
