import { redirect } from "next/navigation";
import { requirePerson } from "@/lib/auth/session";

/** Where the installed program starts: the tablet of one's company, or the choice of companies. */
export default async function TabletStart() {
  const { memberships } = await requirePerson();
  const field = memberships.filter(({ roles }) => roles.includes("technician") || roles.includes("supervisor"));
  const [only, ...more] = field;
  redirect(only && more.length === 0 ? `/t/${only.slug}` : "/companies");
}
