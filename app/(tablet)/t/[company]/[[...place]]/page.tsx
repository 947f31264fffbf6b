import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { placeOf } from "@/app/(tablet)/_tablet/place";
import { TabletProgram } from "@/app/(tablet)/_tablet/tablet-program";
import { requireMember } from "@/lib/auth/session";
import { frameWords } from "@/lib/words/en/frame";

export const metadata: Metadata = { title: frameWords.tablet };

/**
 * Carries no data of its own: what is shown comes from the device, which fills itself from the server. What it asks first is fetched
 * beside the program, which on a weak link takes a second by itself.
 */
export default async function TabletPage(props: { params: Promise<{ company: string; place?: string[] }> }) {
  const { company, place = [] } = await props.params;
  await requireMember(company, "technician", "supervisor");
  if (placeOf(place) === null) notFound();
  return (
    <>
      {["me", "today"].map((asked) => (
        <link key={asked} rel="preload" as="fetch" href={`/api/${company}/${asked}`} crossOrigin="anonymous" />
      ))}
      <TabletProgram />
    </>
  );
}
