import type { Metadata } from "next";
import { Link } from "@/components/ui/link";
import { UndoProvider } from "@/components/ui/undo";
import { ControlSheet } from "./_components/control-sheet";
import { FrameSheet } from "./_components/frame-sheet";
import { PictureSheet } from "./_components/picture-sheet";
import { StateSheet } from "./_components/state-sheet";
import { TokenSheet } from "./_components/token-sheet";

export const metadata: Metadata = { title: "Material" };

/** Every part the screens are made of, in every state. All names and numbers on it are invented. */
export default async function MaterialPage({
  searchParams,
}: {
  searchParams: Promise<{ theme?: string; place?: string }>;
}) {
  const { theme, place } = await searchParams;
  const mode = theme === "dark" || theme === "light" ? theme : undefined;
  return (
    <UndoProvider>
      <FrameSheet>
        <div
          data-theme={mode}
          data-place={place === "tablet" ? "tablet" : undefined}
          className="grid grid-cols-[minmax(0,1fr)] gap-10 bg-ground"
        >
          <p className="flex flex-wrap gap-4 text-small">
            <span className="text-ink-soft">See it as</span>
            <Link href="/material">the system says</Link>
            <Link href="/material?theme=light">light</Link>
            <Link href="/material?theme=dark">dark</Link>
            <Link href="/material?place=tablet">on the tablet</Link>
            <Link href="/material/tablet">a tablet step</Link>
          </p>
          <TokenSheet />
          <StateSheet />
          <ControlSheet />
          <PictureSheet />
        </div>
      </FrameSheet>
    </UndoProvider>
  );
}
