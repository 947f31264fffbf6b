"use client";

import dynamic from "next/dynamic";
import { usePathname } from "next/navigation";
import { type MouseEvent, useEffect, useRef } from "react";
import { EmptyState } from "@/components/ui/notices";
import { LoadingLines } from "@/components/ui/progress";
import { DeviceProvider, type TabletPerson } from "./device/device-context";
import { placeAt } from "./place";
import { ScreenFrame } from "./screen-frame";
import { TodayScreen } from "./today/today-screen";

const VisitScreen = dynamic(() => import("./visit/visit-screen").then((part) => part.VisitScreen), {
  loading: () => <Opening />,
});
const JobScreen = dynamic(() => import("./job/job-screen").then((part) => part.JobScreen), {
  loading: () => <Opening />,
});

/** The technician's whole program: one page whose places are reached without asking the server. */
export function Tablet({ person }: { person: TabletPerson }) {
  const place = placeAt(usePathname(), person.desk.slug);
  const shown = useRef(place);

  useEffect(() => {
    if (JSON.stringify(shown.current) === JSON.stringify(place)) return;
    shown.current = place;
    window.scrollTo(0, 0);
    document.getElementById("work")?.focus({ preventScroll: true });
  });

  return (
    <DeviceProvider person={person}>
      <div onClickCapture={(event) => stayOnPage(event, person.desk.slug)}>
        {place === null && <EmptyState title="There is nothing at this address" />}
        {place?.screen === "today" && <TodayScreen />}
        {place?.screen === "visit" && <VisitScreen key={place.visitId} visitId={place.visitId} />}
        {place?.screen === "job" && <JobScreen key={place.jobId} jobId={place.jobId} />}
      </div>
    </DeviceProvider>
  );
}

/** A link to another place of the tablet changes the address and nothing else; all others go their usual way. */
function stayOnPage(event: MouseEvent<HTMLElement>, slug: string) {
  if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
  const link = (event.target as Element).closest("a");
  if (link?.target !== "" || link.origin !== window.location.origin) return;
  if (placeAt(link.pathname, slug) === null) return;
  event.preventDefault();
  window.history.pushState(null, "", link.pathname + link.search);
}

function Opening() {
  return (
    <ScreenFrame title="Opening">
      <LoadingLines lines={6} label="The screen is being opened" />
    </ScreenFrame>
  );
}
