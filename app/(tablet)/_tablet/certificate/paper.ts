import { v7 as uuidv7 } from "uuid";
import { drawCertificate } from "@/components/certificate/certificate-pdf";
import type { CertificateFonts } from "@/components/certificate/letters";
import {
  type CertificateSource,
  checkTokenHash,
  newCheckToken,
  type PaperFacts,
  writeCertificate,
} from "@/lib/certificate";
import { judgeProof, proofFacts } from "@/lib/hvac/procedure";
import { keepPaperLink, type PaperLink } from "@/lib/sync/device";
import type { Device } from "../device/device-context";
import type { OpenJob } from "../job/use-job";

/** The closed job's certificate with an address of its own; the address is sent to the server when it can be. */
export async function writePaper(job: OpenJob, device: Device): Promise<{ file: Blob; name: string }> {
  const written = writeCertificate(sourceOf(job, device));
  if (!written.ok) throw new Error(written.error.code);
  const link = await keepPaperLink(device.store, device.desk, job.id, newLink(written.value.paper));
  const certificate = { ...written.value, checkUrl: `${window.location.origin}/check/${link.token}` };
  const pdf = await drawCertificate(certificate, await fetchFonts());
  void device.sender.nudge();
  return { file: new Blob([pdf], { type: "application/pdf" }), name: certificate.fileName };
}

function newLink(paper: PaperFacts): PaperLink {
  const token = newCheckToken((bytes) => crypto.getRandomValues(bytes));
  return { token, wire: { id: uuidv7(), tokenHash: checkTokenHash(token), paper }, sentAt: null };
}

function sourceOf({ heading, entries, traces, state }: OpenJob, { person, desk }: Device): CertificateSource {
  const { job, people = [] } = heading;
  return {
    companyName: person.companyName,
    job: {
      number: job.number,
      customer: job.customer,
      site: job.site,
      unit: job.equipment,
      circuitName: job.circuit.name,
    },
    names: new Map([...people.map(({ id, name }) => [id, name] as const), [desk.person, person.name]]),
    entries,
    traces,
    state,
    proof: judgeProof(proofFacts(state, entries)),
    checkUrl: null,
  };
}

const FILES: Readonly<Record<keyof CertificateFonts, URL>> = {
  regular: new URL(
    "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff",
    import.meta.url,
  ),
  regularExt: new URL(
    "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff",
    import.meta.url,
  ),
  bold: new URL(
    "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff",
    import.meta.url,
  ),
  boldExt: new URL(
    "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-700-normal.woff",
    import.meta.url,
  ),
};

let fonts: Promise<CertificateFonts> | undefined;

/** The font files, fetched once; a failed try is no try. */
export function fetchFonts(): Promise<CertificateFonts> {
  fonts ??= fetchAll().catch((cause: unknown) => {
    fonts = undefined;
    throw cause;
  });
  return fonts;
}

async function fetchAll(): Promise<CertificateFonts> {
  const [regular, regularExt, bold, boldExt] = await Promise.all([
    fetchFile(FILES.regular),
    fetchFile(FILES.regularExt),
    fetchFile(FILES.bold),
    fetchFile(FILES.boldExt),
  ]);
  return { regular, regularExt, bold, boldExt };
}

async function fetchFile(at: URL): Promise<Uint8Array> {
  const answer = await fetch(at);
  if (!answer.ok) throw new Error(`${at.pathname} answered ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}
