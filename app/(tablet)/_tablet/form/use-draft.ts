"use client";

import { useCallback, useEffect, useRef, useState } from "react";
import type { JobId } from "@/lib/ids";
import { useDevice } from "../device/device-context";
import { type Draft, withValue } from "./draft";
import { useSoleTab } from "./use-sole-tab";

const SAVE_AFTER_MS = 250;

export interface DraftHandle {
  /** Undefined while the device is read. */
  readonly draft: Draft | undefined;
  readonly set: (path: string, value: unknown) => void;
  readonly change: (change: (draft: Draft) => Draft) => void;
  readonly clear: () => Promise<void>;
  /** Another tab of this browser has the step open; nothing of it is saved from here. */
  readonly elsewhere: boolean;
  readonly takeOver: () => void;
}

/** A draft that survives a reload or a kill: what is typed is on disk a quarter second later, or when the page hides. */
export function useDraft(job: JobId, name: string, blank: () => Draft): DraftHandle {
  const { store, desk } = useDevice();
  const { company, person } = desk;
  const [draft, setDraft] = useState<Draft>();
  const { mine, takeOver } = useSoleTab(`draft ${company} ${person} ${job} ${name}`);
  const unsaved = useRef<Draft | null>(null);
  const makeBlank = useRef(blank);
  makeBlank.current = blank;

  useEffect(() => {
    let gone = false;
    unsaved.current = null;
    if (!mine) return;
    void store.drafts.get([company, person, job, name]).then((row) => {
      if (!gone) setDraft(row ? (row.content as Draft) : makeBlank.current());
    });
    return () => {
      gone = true;
    };
  }, [store, company, person, job, name, mine]);

  const save = useCallback(async () => {
    const content = unsaved.current;
    if (content === null) return;
    unsaved.current = null;
    await store.drafts.put({ company, person, job, name, content }).catch((cause: unknown) => {
      console.error(cause); // no room: said by the banner, tried again with the next change
      unsaved.current ??= content;
    });
  }, [store, company, person, job, name]);

  useEffect(() => {
    const onHide = () => void save();
    document.addEventListener("visibilitychange", onHide);
    window.addEventListener("pagehide", onHide);
    return () => {
      document.removeEventListener("visibilitychange", onHide);
      window.removeEventListener("pagehide", onHide);
      void save();
    };
  }, [save]);

  useEffect(() => {
    if (draft === undefined || unsaved.current === null) return;
    const timer = setTimeout(() => void save(), SAVE_AFTER_MS);
    return () => clearTimeout(timer);
  }, [draft, save]);

  const change = useCallback((alter: (draft: Draft) => Draft) => {
    setDraft((current) => {
      if (current === undefined) return current;
      const next = alter(current);
      unsaved.current = next;
      return next;
    });
  }, []);
  const set = useCallback(
    (path: string, value: unknown) => change((current) => withValue(current, path, value)),
    [change],
  );
  const clear = useCallback(async () => {
    unsaved.current = null;
    await store.drafts.delete([company, person, job, name]);
  }, [store, company, person, job, name]);
  return { draft, set, change, clear, elsewhere: !mine, takeOver };
}
