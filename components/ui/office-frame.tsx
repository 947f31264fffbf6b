import type { ReactNode } from "react";
import { classNames } from "./class-names";
import { MorePlaces } from "./more-places";
import { NavLink } from "./nav-link";
import { SkipLink } from "./skip-link";
import { Wordmark } from "./wordmark";

export type Place = { href: string; label: string; count?: number; shortcut?: string; exact?: boolean };

/** How many places stand in the line along the top before the rest goes behind More. */
const ON_PHONE = 3;
const ON_TABLET = 6;

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
    <div className="office-frame min-h-dvh wide:grid wide:grid-cols-[13rem_minmax(0,1fr)]">
      <SkipLink />
      <header className="no-print flex flex-wrap items-center gap-x-6 border-b border-hairline wide:sticky wide:top-0 wide:h-dvh wide:flex-col wide:flex-nowrap wide:items-stretch wide:border-r wide:border-b-0">
        <div className="flex min-w-0 items-baseline gap-4 px-4 py-2 wide:grid wide:gap-3 wide:pt-4 wide:pb-4">
          <Wordmark />
          <div className="min-w-0 text-small">
            <p className="line-clamp-2 font-medium">{props.company.name}</p>
            {props.company.switcher}
          </div>
        </div>
        <nav aria-label="Places" className="order-last flex w-full wide:order-none wide:block wide:overflow-y-auto">
          {props.places.map(({ label, ...place }, n) => (
            <div
              key={place.href}
              className={classNames("wide:block", n >= ON_PHONE && "hidden", n < ON_TABLET && "min-[40rem]:block")}
            >
              <NavLink {...place}>{label}</NavLink>
            </div>
          ))}
          {props.places.length > ON_PHONE && (
            <div className="ml-auto min-[40rem]:hidden">
              <MorePlaces places={props.places.slice(ON_PHONE)} />
            </div>
          )}
          {props.places.length > ON_TABLET && (
            <div className="ml-auto hidden min-[40rem]:block wide:hidden">
              <MorePlaces places={props.places.slice(ON_TABLET)} />
            </div>
          )}
        </nav>
        <div className="ml-auto flex flex-wrap items-center gap-x-2 px-4 py-2 wide:mt-auto wide:ml-0 wide:grid wide:justify-items-start wide:gap-2 wide:pb-4">
          {props.person}
          {props.signOut}
        </div>
      </header>
      <div className="min-w-0">
        {props.command && (
          <search className="no-print block border-b border-hairline px-4 py-2 wide:px-6">{props.command}</search>
        )}
        <main
          id="work"
          tabIndex={-1}
          className="mx-auto grid max-w-[88rem] grid-cols-[minmax(0,1fr)] gap-6 px-4 py-5 outline-none wide:px-6"
        >
          {props.children}
        </main>
      </div>
    </div>
  );
}
