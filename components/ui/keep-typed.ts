import { type FormEvent, startTransition } from "react";

/**
 * Sends a form to its action without the browser's way of emptying it afterwards: what was typed stays when it is refused.
 * For `onSubmit` beside `action`, which still serves before the page has woken up.
 */
export function keepTyped(dispatch: (form: FormData) => void, pending: boolean) {
  return (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    if (!pending) startTransition(() => dispatch(form));
  };
}
