import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

/** What another library reads in a PDF: the text of each page, the tags, the description. */
export async function readPdf(bytes: Uint8Array) {
  const pdf = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const pages: string[] = [];
  const roles: string[] = [];
  const alts: string[] = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const page = await pdf.getPage(number);
    const { items } = await page.getTextContent();
    pages.push(items.map((item) => ("str" in item ? item.str : "")).join(" "));
    walk((await page.getStructTree()) as Tag | null, roles, alts);
  }
  const { info } = await pdf.getMetadata();
  await pdf.destroy();
  const text = pages.join(" ").replaceAll(/\s+/g, " ");
  return {
    pages,
    text,
    roles,
    alts,
    info: info as Record<string, unknown>,
    language: (info as { Language?: string }).Language,
  };
}

interface Tag {
  role?: string;
  alt?: string;
  children?: Tag[];
}

function walk(tag: Tag | null, roles: string[], alts: string[]): void {
  if (!tag) return;
  if (tag.role) roles.push(tag.role);
  if (tag.alt) alts.push(tag.alt);
  for (const child of tag.children ?? []) walk(child, roles, alts);
}
