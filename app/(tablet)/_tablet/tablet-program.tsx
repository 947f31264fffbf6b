"use client";

import dynamic from "next/dynamic";
import { usePathname } from "next/navigation";
import { useEffect, useRef, useSyncExternalStore } from "react";
import { EmptyState } from "@/components/ui/notices";
import { LoadingLines } from "@/components/ui/progress";
import { TabletFrame } from "@/components/ui/tablet-frame";
import { frameWords } from "@/lib/words/en/frame";
import { DeviceProvider } from "./device/device-context";
import { useProgram } from "./device/use-program";
import { useTablet } from "./device/use-tablet";
import { follow } from "./follow-link";
import { NobodyHere } from "./nobody-here";
import { placeAt, slugAt } from "./place";
import { ScreenFrame } from "./screen-frame";
import { TodayScreen } from "./today/today-screen";

const VisitScreen = dynamic(() => import("./visit/visit-screen").then((part) => part.VisitScreen), {
  loading: () => <Opening />,
});
const JobScreen = dynamic(() => import("./job/job-screen").then((part) => part.JobScreen), {
  loading: () => <Opening />,
});
const SignOutScreen = dynamic(() => import("./sign-out-screen").then((part) => part.SignOutScreen), {
  loading: () => <Opening />,
});

/**
 * The technician's whole program: one page whose places are reached without asking the server. What the server renders
 * names nobody, so that it can be kept on the device and opened by whoever is at it.
 */
export function TabletProgram() {
  const onDevice = useSyncExternalStore(
    () => () => undefined,
    () => true,
    () => false,
  );
  return onDevice ? <OnDevice /> : <Starting />;
}

function OnDevice() {
  const pathname = usePathname();
  const slug = slugAt(pathname);
  const { tablet, standing, someoneElse } = useTablet(slug);
  const takeOver = useProgram();
  if (standing === undefined) return <Starting />;
  if (standing.at === "nobody") return <NobodyHere because={standing.because} here={pathname} />;
  const { person } = standing;
  return (
    <DeviceProvider
      key={`${person.desk.company} ${person.desk.person}`}
      tablet={tablet}
      person={person}
      takeOver={takeOver}
      onSomeoneElse={someoneElse}
    >
      <Places slug={person.desk.slug} pathname={pathname} />
    </DeviceProvider>
  );
}

function Places({ slug, pathname }: { slug: string; pathname: string }) {
  const place = placeAt(pathname, slug);
  const shown = useRef(place);

  useEffect(() => {
    if (JSON.stringify(shown.current) === JSON.stringify(place)) return;
    shown.current = place;
    window.scrollTo(0, 0);
    document.getElementById("work")?.focus({ preventScroll: true });
  });

  return (
    <div onClickCapture={(event) => follow(event, slug)}>
      {place === null && <EmptyState title={frameWords.nothingAtThisAddress} />}
      {place?.screen === "today" && <TodayScreen />}
      {place?.screen === "visit" && <VisitScreen key={place.visitId} visitId={place.visitId} />}
      {place?.screen === "job" && <JobScreen key={place.jobId} jobId={place.jobId} />}
      {place?.screen === "sign-out" && <SignOutScreen />}
    </div>
  );
}

function Starting() {
  return (
    <TabletFrame title="Dryhold" sync={null}>
      <LoadingLines lines={6} label={frameWords.tabletBeingOpened} />
    </TabletFrame>
  );
}

function Opening() {
  return (
    <ScreenFrame title={frameWords.opening}>
      <LoadingLines lines={6} label={frameWords.screenBeingOpened} />
    </ScreenFrame>
  );
}
