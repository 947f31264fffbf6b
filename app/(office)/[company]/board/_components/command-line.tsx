"use client";

import { useEffect, useRef } from "react";
import { Finder } from "@/components/ui/finder";
import type { Board } from "@/lib/work/board/board";
import { type LineCommand, suggestCommands } from "@/lib/work/board/command-line";

/** One line for the whole board; "." puts the cursor in it from anywhere. */
export function CommandLine({ board, onCommand }: { board: Board; onCommand: (command: LineCommand) => void }) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    function onKey(event: KeyboardEvent) {
      const typing =
        event.target instanceof HTMLElement && event.target.closest("input, textarea, select, [contenteditable]");
      if (event.key !== "." || event.ctrlKey || event.metaKey || event.altKey || typing) return;
      event.preventDefault();
      box.current?.querySelector("input")?.focus();
    }
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, []);
  return (
    <div ref={box} className="no-print w-full max-w-md">
      <Finder
        label="Board command"
        labelHidden
        placeholder="place 12, a customer, a technician, away …   ( . )"
        emptyWords="Nothing on this board is called that."
        choices={suggestCommands(board, "").map(asChoice)}
        search={async (line) => suggestCommands(board, line).map(asChoice)}
        chosen={null}
        onChoose={(found) => {
          if (!found) return;
          onCommand(JSON.parse(found.value) as LineCommand);
          // What the command did not take the focus to has it back: the next "." opens the line, it is not typed into it.
          box.current?.querySelector<HTMLInputElement>("input:focus")?.blur();
        }}
      />
    </div>
  );
}

const asChoice = ({ command, label, detail }: ReturnType<typeof suggestCommands>[number]) => ({
  value: JSON.stringify(command),
  label,
  detail,
});
