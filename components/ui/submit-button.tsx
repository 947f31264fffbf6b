"use client";

import { useFormStatus } from "react-dom";
import { Button, type ButtonProps } from "./button";

/** The button that sends the form around it; pending while the form is on its way. */
export function SubmitButton(props: Omit<ButtonProps, "type" | "pending">) {
  const { pending } = useFormStatus();
  return <Button kind="action" {...props} type="submit" pending={pending} />;
}
