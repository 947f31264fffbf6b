import * as z from "zod";
import { roles } from "@/lib/auth/roles";
import { email, line, optionalDate, requiredLine } from "./fields";

const someRoles = z
  .array(z.enum(roles))
  .min(1, "Choose at least one role.")
  .transform((chosen) => [...new Set(chosen)]);

export const memberForm = z.strictObject({
  name: requiredLine(200, "Give the person's name."),
  phone: line(60),
  roles: someRoles,
});
export type MemberFields = z.output<typeof memberForm>;

export const invitationForm = z.strictObject({
  name: requiredLine(200, "Give the person's name."),
  email: email.refine((address) => address !== "", { error: "Give the address the invitation is for." }),
  roles: someRoles,
});

export const CERTIFICATE_KINDS = [
  "us-type-1",
  "us-type-2",
  "us-type-3",
  "us-universal",
  "eu-a1",
  "eu-a2",
  "eu-b",
  "eu-c",
  "eu-d",
  "eu-e",
  "flammables",
] as const;
export type CertificateKind = (typeof CERTIFICATE_KINDS)[number];

/**
 * Whether a certificate of this kind can run out.
 * @source 40 CFR 82.161: technician certification has no expiry. Regulation (EU) 2024/573 article 10 asks for refreshing (from memory),
 *   so the date printed by the issuer is kept. Competence for flammables: as its training scheme says
 */
export function certificateExpires(kind: CertificateKind): boolean {
  return !kind.startsWith("us-");
}

/** A certificate as it is printed; one whose rule knows no expiry takes none. */
export const certificateForm = z
  .strictObject({
    kind: z.enum(CERTIFICATE_KINDS),
    number: line(100),
    issuedOn: optionalDate,
    expiresOn: optionalDate.default(null), // not asked where nothing expires
  })
  .refine(({ kind, expiresOn }) => certificateExpires(kind) || expiresOn === null, {
    path: ["expiresOn"],
    error: "This certification does not expire (40 CFR 82.161); leave the date empty.",
  })
  .refine(({ issuedOn, expiresOn }) => issuedOn === null || expiresOn === null || issuedOn < expiresOn, {
    path: ["expiresOn"],
    error: "Ends before it begins.",
  });
export type CertificateFields = z.output<typeof certificateForm>;
