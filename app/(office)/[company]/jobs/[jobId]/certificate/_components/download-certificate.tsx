"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { Button } from "@/components/ui/button";

/** Fetches the paper with a new link; the list of links beside it is loaded again, since it has one more. */
export function DownloadCertificate({ address, fileName }: { address: string; fileName: string }) {
  const router = useRouter();
  const [pending, setPending] = useState(false);
  const [failed, setFailed] = useState(false);
  async function download() {
    setPending(true);
    const answer = await fetch(address, { method: "POST" }).catch(() => null);
    setFailed(!answer?.ok);
    if (answer?.ok) {
      saveFile(await answer.blob(), fileName);
      router.refresh();
    }
    setPending(false);
  }
  return (
    <div className="grid justify-items-start gap-2">
      <Button kind="action" pending={pending} pendingWord="Writing the certificate" onClick={() => void download()}>
        Download the certificate
      </Button>
      {failed && (
        <p role="alert" className="text-refused">
          The certificate could not be written. The job is unchanged. Load the page and try again.
        </p>
      )}
    </div>
  );
}

function saveFile(file: Blob, name: string) {
  const address = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
