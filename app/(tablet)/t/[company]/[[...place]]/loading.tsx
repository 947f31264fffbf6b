import { LoadingLines } from "@/components/ui/progress";

export default function TabletLoading() {
  return (
    <main data-frame="tablet" className="mx-auto grid max-w-3xl gap-4 px-5 py-10">
      <LoadingLines lines={6} label="The tablet is being opened" />
    </main>
  );
}
