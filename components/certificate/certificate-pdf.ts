import { CERTIFICATE_FORM, type Certificate, digestGroups } from "@/lib/certificate";
import { drawFrontPage } from "./front-page";
import type { CertificateFonts } from "./letters";
import { drawRecordPages } from "./record-pages";
import { Sheet } from "./sheet";

/**
 * The certificate as a PDF: one page in plain words, then the record behind it. The same certificate and the same font
 * files give the same bytes on a tablet and on the server.
 */
export function drawCertificate(certificate: Certificate, fonts: CertificateFonts): Promise<Uint8Array<ArrayBuffer>> {
  const { title, companyName, paper, closedAt } = certificate;
  const about = { title, author: companyName, subject: CERTIFICATE_FORM, madeAt: new Date(closedAt) };
  const sheet = new Sheet(about, fonts);
  drawFrontPage(sheet, certificate);
  drawRecordPages(sheet, certificate);
  const short = digestGroups(paper.digest.slice(0, 16));
  return sheet.finish((page, pages) => ({
    left: `${title}. Digest begins ${short}`,
    right: `Page ${page} of ${pages}`,
  }));
}
