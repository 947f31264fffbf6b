"use client";

import { useActionState } from "react";
import { SubmitButton } from "@/components/ui/submit-button";
import { endOrder } from "../actions";

/** The two ways a work order ends; what stands in the way is said beside the buttons. */
export function EndOrder({ company, orderId }: { company: string; orderId: string }) {
  const [outcome, end] = useActionState(endOrder, null);
  return (
    <form action={end} className="grid justify-items-end gap-2">
      <input type="hidden" name="company" value={company} />
      <input type="hidden" name="orderId" value={orderId} />
      <div className="flex gap-2">
        <SubmitButton kind="quiet" name="as" value="cancelled">
          Cancel the work order
        </SubmitButton>
        <SubmitButton name="as" value="done">
          Work order is done
        </SubmitButton>
      </div>
      {outcome && !outcome.ok && (
        <p role="alert" className="text-refused">
          {outcome.error.message}
        </p>
      )}
    </form>
  );
}
