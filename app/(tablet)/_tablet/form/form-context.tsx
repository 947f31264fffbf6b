"use client";

import { createContext, useContext } from "react";
import { type Draft, valueAt } from "./draft";

export interface FormFields {
  readonly draft: Draft;
  readonly set: (path: string, value: unknown) => void;
  /** Paths the record cannot do without and that are still empty or wrong; said only after the first try to record. */
  readonly open: ReadonlyMap<string, string>;
}

const FormContext = createContext<FormFields | null>(null);
export const FormProvider = FormContext.Provider;

export function useForm(): FormFields {
  const form = useContext(FormContext);
  if (!form) throw new Error("no form around this field");
  return form;
}

/** What is still open once a place was touched: neither it nor anything in it is called unanswered any more. */
export function withoutAnswered<T>(open: ReadonlyMap<string, T>, path: string): ReadonlyMap<string, T> {
  const left = [...open].filter(([place]) => place !== path && !place.startsWith(`${path}.`));
  return left.length === open.size ? open : new Map(left);
}

/** One place of the draft: its value, how to set it, and what is still wrong with it. */
export function useField<T>(path: string) {
  const { draft, set, open } = useForm();
  return {
    value: valueAt(draft, path) as T | null | undefined,
    set: (value: T | null) => set(path, value),
    problem: open.get(path),
  };
}
