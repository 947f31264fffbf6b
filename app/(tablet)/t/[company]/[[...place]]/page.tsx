import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { placeOf } from "@/app/(tablet)/_tablet/place";
import { Tablet } from "@/app/(tablet)/_tablet/tablet";
import { requireMember } from "@/lib/auth/session";

export const metadata: Metadata = { title: "Tablet" };

/** Carries no data of its own: what is shown comes from the device, which fills itself from the server. */
export default async function TabletPage(props: { params: Promise<{ company: string; place?: string[] }> }) {
  const { company, place = [] } = await props.params;
  const member = await requireMember(company, "technician", "supervisor");
  if (placeOf(place) === null) notFound();
  return (
    <Tablet
      person={{
        desk: { company: member.companyId, slug: member.slug, person: member.personId },
        name: member.name,
        companyName: member.companyName,
        roles: member.roles,
      }}
    />
  );
}
