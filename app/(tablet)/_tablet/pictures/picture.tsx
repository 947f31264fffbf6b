"use client";

import { useEffect, useState } from "react";
import type { AttachmentId, JobId } from "@/lib/ids";
import { findPicture } from "@/lib/sync/device";
import { mediaOf } from "@/lib/sync/picture";
import { useDevice } from "../device/device-context";

/** One picture, from this tablet where it has it, else from the server. */
export function Picture({ id, job, alt }: { id: AttachmentId; job: JobId; alt: string }) {
  const { store, desk } = useDevice();
  const [source, setSource] = useState<string>();
  useEffect(() => {
    let made: string | undefined;
    let gone = false;
    void findPicture(store, desk, id).then((row) => {
      if (gone) return;
      const type = row && mediaOf(row.bytes);
      if (row && type) made = URL.createObjectURL(new Blob([row.bytes], { type }));
      setSource(made ?? `/api/${desk.slug}/jobs/${job}/pictures/${id}`);
    });
    return () => {
      gone = true;
      if (made) URL.revokeObjectURL(made);
    };
  }, [store, desk, id, job]);
  return source ? (
    <img src={source} alt={alt} className="max-h-40 max-w-full rounded-control border border-hairline bg-sunk" />
  ) : (
    <span className="skeleton-line block h-40 w-40" />
  );
}
