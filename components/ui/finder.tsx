"use client";

import { Combobox } from "@base-ui/react/combobox";
import { useRef, useState } from "react";
import { CrossGlyph } from "./cross-glyph";
import { Field, type FieldWords, splitField } from "./field";

export type Found = { value: string; label: string; detail?: string };

/**
 * Search as you type, then choose one; the chosen value is posted under `name`. `search` asks elsewhere for each
 * query (answers that come late are dropped); without it the given choices are searched here.
 */
export function Finder(
  props: FieldWords & {
    name?: string;
    choices?: readonly Found[];
    search?: (query: string) => Promise<readonly Found[]>;
    chosen?: Found | null;
    defaultChosen?: Found;
    onChoose?: (found: Found | null) => void;
    placeholder?: string;
    emptyWords?: string;
    required?: boolean;
    disabled?: boolean;
  },
) {
  const { words, control } = splitField(props);
  const { choices = [], search, chosen, defaultChosen, onChoose, emptyWords = "Nothing found" } = control;
  const [answers, setAnswers] = useState<readonly Found[]>(choices);
  const [failed, setFailed] = useState(false);
  const latest = useRef(0);

  async function ask(query: string) {
    if (!search) return;
    latest.current += 1;
    const turn = latest.current;
    try {
      const found = await search(query);
      if (turn !== latest.current) return;
      setAnswers(found);
      setFailed(false);
    } catch {
      if (turn === latest.current) setFailed(true);
    }
  }

  return (
    <Combobox.Root<Found>
      items={[...(search ? answers : choices)]}
      isItemEqualToValue={(one, other) => one.value === other.value}
      onValueChange={(found) => onChoose?.(found)}
      onInputValueChange={(query) => void ask(query)}
      autoHighlight
      {...(search && { filter: null })}
      {...(chosen !== undefined && { value: chosen })}
      {...(defaultChosen && { defaultValue: defaultChosen })}
      {...(control.name && { name: control.name })}
      {...(control.required && { required: true })}
      {...(control.disabled && { disabled: true })}
    >
      <Field {...words}>
        {(wiring) => (
          <Combobox.InputGroup className="relative flex items-center">
            <Combobox.Input
              {...wiring}
              // While the list is open the page behind is hidden from screen readers, the label with it.
              aria-labelledby={`${wiring.id}-label`}
              placeholder={control.placeholder}
              className="control pr-16"
            />
            <div className="absolute right-1 flex items-center text-ink-soft">
              <Combobox.Clear aria-label="Clear" className="grid size-7 place-items-center">
                <CrossGlyph />
              </Combobox.Clear>
              <Combobox.Trigger aria-label="Show choices" className="grid size-7 place-items-center">
                <svg
                  viewBox="0 0 16 16"
                  className="size-3.5"
                  fill="none"
                  stroke="currentColor"
                  strokeWidth="1.5"
                  aria-hidden="true"
                >
                  <path d="m3 6 5 5 5-5" />
                </svg>
              </Combobox.Trigger>
            </div>
          </Combobox.InputGroup>
        )}
      </Field>
      <Combobox.Portal>
        <Combobox.Positioner sideOffset={4} className="z-40 outline-none">
          <Combobox.Popup className="floating appear w-(--anchor-width) max-w-(--available-width)">
            <Combobox.Status className="sr-only">{failed ? "The search did not answer." : null}</Combobox.Status>
            <Combobox.Empty>
              <p className="px-3 py-2 text-ink-soft">
                {failed ? "The search did not answer. Type again to retry." : emptyWords}
              </p>
            </Combobox.Empty>
            <Combobox.List className="max-h-[min(22rem,var(--available-height))] overflow-y-auto py-1 data-empty:p-0">
              {(found: Found) => (
                <Combobox.Item key={found.value} value={found} className="list-option">
                  <span className="grid">
                    <span>{found.label}</span>
                    {found.detail && <span className="text-small text-ink-soft">{found.detail}</span>}
                  </span>
                </Combobox.Item>
              )}
            </Combobox.List>
          </Combobox.Popup>
        </Combobox.Positioner>
      </Combobox.Portal>
    </Combobox.Root>
  );
}
