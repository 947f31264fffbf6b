import { redirect } from "next/navigation";
import { homeOf } from "@/lib/auth/home";
import { requireMember } from "@/lib/auth/session";

export default async function CompanyPage({ params }: { params: Promise<{ company: string }> }) {
  redirect(homeOf(await requireMember((await params).company)));
}
