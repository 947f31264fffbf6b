import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";

/** One step is typed in one tab only, or each would write over what the other has. */
export function OpenElsewhere({ onTakeOver }: { onTakeOver: () => void }) {
  return (
    <ErrorNotice
      happened="This step is open in another tab of this browser."
      safe="What was typed there is kept on this device."
      todo="Go on there, or go on here with what was typed so far."
      action={<Button onClick={onTakeOver}>Go on here</Button>}
    />
  );
}

export function StorageFull() {
  return (
    <ErrorNotice
      happened="This tablet has no room left. Nothing was saved."
      safe="What was saved before is safe, and what you typed stays on this screen while it is open."
      todo="Keep this page open. Delete photos, downloads or programs on the tablet, then press again. Write the readings down meanwhile."
    />
  );
}
