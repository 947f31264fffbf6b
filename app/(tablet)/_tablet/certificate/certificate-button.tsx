"use client";

import { useEffect, useState } from "react";
import { Button } from "@/components/ui/button";
import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { findPaperLink } from "@/lib/sync/device";
import { certificateWords } from "@/lib/words/en/certificate";
import { useDevice } from "../device/device-context";
import { useLive } from "../device/use-live";
import { useJobHere } from "../job/job-context";

/** The closed job's certificate, written on this device; the part that writes it is fetched ahead, so that it works with no network. */
export function CertificateButton() {
  const device = useDevice();
  const { job } = useJobHere();
  const [pending, setPending] = useState(false);
  const [failed, setFailed] = useState(false);
  useEffect(() => void import("./paper").then(({ fetchFonts }) => fetchFonts()).catch(() => undefined), []);
  async function download() {
    setPending(true);
    try {
      const { writePaper } = await import("./paper");
      saveFile(await writePaper(job, device));
      setFailed(false);
    } catch (cause) {
      console.error(cause);
      setFailed(true);
    }
    setPending(false);
  }
  return (
    <Section title={certificateWords.certificate} lead={certificateWords.forTheCustomer}>
      <div className="flex flex-wrap items-center gap-4">
        <Button pending={pending} pendingWord={certificateWords.writingItHere} onClick={() => void download()}>
          {certificateWords.downloadTheCertificate}
        </Button>
        <LinkStanding />
      </div>
      {failed && (
        <p role="alert" className="text-refused">
          {certificateWords.theCertificateCould}
        </p>
      )}
    </Section>
  );
}

/** Whether the server knows the address on the paper yet. */
function LinkStanding() {
  const { store, desk } = useDevice();
  const { job } = useJobHere();
  const closing = job.entries.find((entry) => entry.id === job.state.closedBy);
  const digest = closing?.kind === "job-closed" ? closing.body.digest : "";
  const link = useLive(`paper link ${digest}`, ["drafts"], () => findPaperLink(store, desk, job.id, digest));
  if (!link) return null;
  return link.sentAt === null ? (
    <StateMark state="waiting" word={certificateWords.itsAddressIsSaved} />
  ) : (
    <StateMark state="proven" word={certificateWords.itsAddressIsSent} />
  );
}

function saveFile({ file, name }: { file: Blob; name: string }) {
  const address = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
