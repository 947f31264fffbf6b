import type { CertificateLinkWire } from "@/lib/certificate/schema";
import type { JobId } from "@/lib/ids";
import type { Desk, DraftRow } from "./device-rows";
import type { DeviceStore } from "./device-store";

/** The address printed on a paper, and what the server has to be told of it; the secret part stays on the device and the paper. */
export interface PaperLink {
  readonly token: string;
  readonly wire: CertificateLinkWire;
  readonly sentAt: string | null;
}
export interface OwedLink extends DraftRow {
  readonly content: PaperLink;
}

const NAME = "certificate-link ";
const nameOf = (digest: string) => `${NAME}${digest}`;

/** The link of the paper with this digest: the one made before, or the one given, kept until the server has it. */
export async function keepPaperLink(store: DeviceStore, desk: Desk, job: JobId, made: PaperLink): Promise<PaperLink> {
  const { company, person } = desk;
  const name = nameOf(made.wire.paper.digest);
  return store.transaction("rw", ["drafts"], async ({ drafts }) => {
    const known = await drafts.get([company, person, job, name]);
    if (known) return known.content as PaperLink;
    await drafts.put({ company, person, job, name, content: made });
    return made;
  });
}

/** The link of the paper with this digest, if one was made here. */
export async function findPaperLink(
  store: DeviceStore,
  { company, person }: Desk,
  job: JobId,
  digest: string,
): Promise<PaperLink | null> {
  const row = await store.drafts.get([company, person, job, nameOf(digest)]);
  return (row?.content as PaperLink | undefined) ?? null;
}

/** Links this person printed that the server does not have yet. */
export async function listOwedLinks(store: DeviceStore, { company, person }: Desk): Promise<OwedLink[]> {
  const rows = (await store.drafts.list()).filter(
    (row) => row.company === company && row.person === person && row.name.startsWith(NAME),
  ) as OwedLink[];
  return rows.filter(({ content }) => content.sentAt === null);
}

export async function noteLinkSent(store: DeviceStore, link: OwedLink, sentAt: string): Promise<void> {
  await store.drafts.put({ ...link, content: { ...link.content, sentAt } });
}
