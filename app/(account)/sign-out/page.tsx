import type { Metadata } from "next";
import { SignOutForm } from "./_components/sign-out-form";

export const metadata: Metadata = { title: "Sign out" };

export default function SignOutPage() {
  return (
    <>
      <h1 className="text-title">Sign out</h1>
      <p>Work that this device has saved but not yet sent stays on it, for you alone, until you sign in here again.</p>
      <SignOutForm />
    </>
  );
}
