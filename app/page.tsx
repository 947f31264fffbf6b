import { redirect } from "next/navigation";
import { homeOf } from "@/lib/auth/home";
import { requirePerson } from "@/lib/auth/session";

/** Sends everyone to where their day begins. */
export default async function HomePage() {
  const { memberships } = await requirePerson();
  const [only, ...more] = memberships;
  redirect(only && more.length === 0 ? homeOf(only) : "/companies");
}
