import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { CertificateFields } from "@/lib/registry/member";
import { toColumn } from "./calendar-date";
import type { TenantTx } from "./tenant";

/** The new certificate's id, or null when there is no such person in this company. */
export async function addCertificate(
  tx: TenantTx,
  personId: string,
  fields: CertificateFields,
): Promise<string | null> {
  if (!(await tx.member.findFirst({ where: { personId }, select: { personId: true } }))) return null;
  const id = uuidv7();
  await tx.certificate.create({ data: { id, personId, ...columns(fields) } });
  return id;
}

/** What the certificate said before it was struck off, for the record; null when there is none of this person. */
export async function removeCertificate(tx: TenantTx, personId: string, id: string) {
  const certificate = await tx.certificate.findFirst({ where: { id, personId }, select: { kind: true, number: true } });
  if (certificate) await tx.certificate.deleteMany({ where: { id, personId } });
  return certificate;
}

function columns({ issuedOn, expiresOn, ...plain }: CertificateFields) {
  return { ...plain, issuedOn: toColumn(issuedOn), expiresOn: toColumn(expiresOn) };
}
