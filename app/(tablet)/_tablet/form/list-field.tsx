"use client";

import { useState } from "react";
import { Button } from "@/components/ui/button";
import { Field } from "@/components/ui/field";
import { fieldsWords } from "@/lib/words/en/fields";
import { useField } from "./form-context";

/** A list of short names, added one by one. */
export function NameList(props: {
  at: string;
  label: string;
  hint?: string;
  suggestions?: readonly string[];
  addWord: string;
}) {
  const { value, set, problem } = useField<string[]>(props.at);
  const [typed, setTyped] = useState("");
  const names = value ?? [];
  function add(name: string) {
    const clean = name.trim();
    if (clean !== "" && !names.includes(clean)) set([...names, clean]);
    setTyped("");
  }
  const unused = (props.suggestions ?? []).filter((name) => !names.includes(name));
  return (
    <div className="grid gap-2" data-open-field={problem ? "" : undefined}>
      <Field label={props.label} hint={props.hint} error={problem}>
        {(wiring) => (
          <div className="flex gap-2">
            <input
              {...wiring}
              type="text"
              className="control"
              maxLength={120}
              value={typed}
              onChange={(event) => setTyped(event.target.value)}
              onKeyDown={(event) => {
                if (event.key !== "Enter") return;
                event.preventDefault();
                add(typed);
              }}
            />
            <Button onClick={() => add(typed)}>
              {props.addWord}
              <span className="sr-only">: {props.label}</span>
            </Button>
          </div>
        )}
      </Field>
      {unused.length > 0 && (
        <div className="flex flex-wrap gap-2">
          {unused.map((name) => (
            <Button key={name} onClick={() => add(name)}>
              + {name}
            </Button>
          ))}
        </div>
      )}
      <ul>
        {names.map((name) => (
          <li key={name} className="flex items-center justify-between gap-3 border-b border-hairline">
            <span>{name}</span>
            <Button kind="plain" onClick={() => set(names.filter((each) => each !== name))}>
              {fieldsWords.takeOff}
              <span className="sr-only"> {name}</span>
            </Button>
          </li>
        ))}
      </ul>
    </div>
  );
}
