import { redirect } from "next/navigation";
import { requireMember } from "@/lib/auth/session";

/** An owner comes for the figures, a supervisor for what waits. */
export default async function QualityPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const member = await requireMember(company, "supervisor", "owner");
  redirect(`/${company}/quality/${member.roles.includes("owner") ? "proof" : "decisions"}`);
}
