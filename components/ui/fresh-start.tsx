import { buttonClass } from "./button-look";

/** The way out of a page that is none: loads the start anew, so it carries no script into every first page. */
export function FreshStart() {
  return (
    <a href="/" className={buttonClass({})}>
      Go to the start
    </a>
  );
}
