import type { ReactNode } from "react";
import { NavLink } from "./nav-link";
import { SkipLink } from "./skip-link";
import { Wordmark } from "./wordmark";

export type Place = { href: string; label: string; count?: number; shortcut?: string; exact?: boolean };

/**
 * The office around every page: where one can go on the left (a line along the top when narrow), whose company it
 * is, who is signed in, the way out. `person` and `signOut` are the page's own (a menu, a form with a button).
 */
export function OfficeFrame(props: {
  company: { name: string; switcher?: ReactNode };
  places: readonly Place[];
  person: ReactNode;
  signOut?: ReactNode;
  command?: ReactNode;
  children: ReactNode;
}) {
  return (
    <div className="min-h-dvh wide:grid wide:grid-cols-[13rem_minmax(0,1fr)]">
      <SkipLink />
      <header className="no-print flex flex-col border-hairline border-b wide:sticky wide:top-0 wide:h-dvh wide:border-r wide:border-b-0">
        <div className="flex items-center justify-between gap-4 px-4 pt-3 pb-2 wide:grid wide:justify-start wide:gap-3 wide:pb-4">
          <Wordmark />
          <div className="min-w-0 text-small">
            <p className="line-clamp-2 font-medium">{props.company.name}</p>
            {props.company.switcher}
          </div>
        </div>
        <nav aria-label="Places" className="flex overflow-x-auto wide:block wide:overflow-y-auto">
          {props.places.map(({ label, ...place }) => (
            <NavLink key={place.href} {...place}>
              {label}
            </NavLink>
          ))}
        </nav>
        <div className="flex flex-wrap items-center justify-between gap-x-4 gap-y-1 px-4 py-2 text-small wide:mt-auto wide:grid wide:justify-items-start wide:gap-2 wide:pb-4">
          {props.person}
          {props.signOut}
        </div>
      </header>
      <div className="min-w-0">
        {props.command && (
          <search className="no-print block border-b border-hairline px-4 py-2 wide:px-6">{props.command}</search>
        )}
        <main id="work" tabIndex={-1} className="mx-auto grid max-w-[88rem] gap-6 px-4 py-5 outline-none wide:px-6">
          {props.children}
        </main>
      </div>
    </div>
  );
}
