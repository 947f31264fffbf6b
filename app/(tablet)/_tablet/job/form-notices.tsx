import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";
import { recordWords } from "@/lib/words/en/record";

/** One step is typed in one tab only, or each would write over what the other has. */
export function OpenElsewhere({ onTakeOver }: { onTakeOver: () => void }) {
  return (
    <ErrorNotice
      happened={recordWords.openInAnotherTab}
      safe={recordWords.typedThereIsKept}
      todo={recordWords.goOnThereOrHere}
      action={<Button onClick={onTakeOver}>{recordWords.goOnHere}</Button>}
    />
  );
}

export function StorageFull() {
  return (
    <ErrorNotice
      happened={recordWords.noRoomNothingSaved}
      safe={recordWords.savedBeforeIsSafe}
      todo={recordWords.makeRoom}
    />
  );
}
