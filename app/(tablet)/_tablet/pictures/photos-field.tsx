"use client";

import { useId, useState } from "react";
import { Button } from "@/components/ui/button";
import { Section } from "@/components/ui/section";
import { SelectField } from "@/components/ui/select-field";
import type { AttachmentId } from "@/lib/ids";
import { dropPicture, isStorageFull, keepPicture, type PictureReference } from "@/lib/sync/device";
import { fieldsWords } from "@/lib/words/en/fields";
import { picturesWords } from "@/lib/words/en/pictures";
import { useDevice } from "../device/device-context";
import { useField } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import { Picture } from "./picture";
import { shrinkPhoto } from "./shrink";

const MOST = 50;
type Photo = PictureReference & { readonly shows?: string };

/** Photos of a step, kept on this tablet as they are taken and sent after the record. */
export function PhotosField({ subjects = [] }: { subjects?: readonly string[] }) {
  const { store, desk } = useDevice();
  const { job } = useJobHere();
  const field = useField<Photo[]>("photos");
  const [standing, setStanding] = useState<string | null>(null);
  const photos = field.value ?? [];

  async function take(files: FileList | null) {
    const added: Photo[] = [];
    const chosen = [...(files ?? [])].slice(0, MOST - photos.length);
    for (const [index, file] of chosen.entries()) {
      setStanding(picturesWords.beingKept(index + 1, chosen.length));
      const bytes = await shrinkPhoto(file);
      if (bytes === null) {
        setStanding(picturesWords.noPhoto(file.name));
        break;
      }
      try {
        added.push(await keepPicture(store, desk, job.id, bytes));
      } catch (cause) {
        if (!isStorageFull(cause)) throw cause;
        setStanding(picturesWords.noRoom);
        break;
      }
    }
    if (added.length === chosen.length) setStanding(null);
    if (added.length > 0) field.set([...photos, ...added]);
  }
  function drop(id: AttachmentId) {
    field.set(photos.filter(({ attachment }) => attachment !== id));
    void dropPicture(store, desk, id);
  }
  function say(id: AttachmentId, shows: string) {
    field.set(
      photos.map((photo) => {
        if (photo.attachment !== id) return photo;
        const { shows: _before, ...bare } = photo;
        return shows ? { ...bare, shows } : bare;
      }),
    );
  }

  return (
    <Section title={photos.length === 0 ? picturesWords.photos : picturesWords.photosSoFar(photos.length)}>
      {photos.length > 0 && (
        <ul className="flex flex-wrap gap-4">
          {photos.map(({ attachment, shows }, index) => (
            <li key={attachment} className="grid content-start gap-2">
              <Picture
                id={attachment}
                job={job.id}
                alt={shows ? picturesWords.photoOf(shows) : picturesWords.photo(index + 1)}
              />
              {subjects.length > 0 && (
                <SelectField
                  label={picturesWords.photoShows(index + 1)}
                  value={shows ?? ""}
                  choices={[
                    { value: "", label: picturesWords.stepAsAWhole },
                    ...subjects.map((name) => ({ value: name, label: name })),
                  ]}
                  onChange={(event) => say(attachment, event.target.value)}
                />
              )}
              <Button kind="plain" onClick={() => drop(attachment)}>
                {fieldsWords.takeOff}
                <span className="sr-only"> {picturesWords.photoInSentence(index + 1)}</span>
              </Button>
            </li>
          ))}
        </ul>
      )}
      {photos.length < MOST && (
        <div className="flex flex-wrap gap-3">
          <PhotoButton word={picturesWords.takeAPhoto} camera onFiles={take} />
          <PhotoButton word={picturesWords.fromThisTablet} onFiles={take} />
        </div>
      )}
      <p role="status" className="text-small text-ink-soft">
        {standing ?? picturesWords.madeSmaller}
      </p>
    </Section>
  );
}

function PhotoButton(props: { word: string; camera?: boolean; onFiles: (files: FileList | null) => Promise<void> }) {
  const id = useId();
  return (
    <label
      htmlFor={id}
      className="inline-flex min-h-(--control) cursor-pointer items-center rounded-control border border-edge bg-raised px-5 font-semibold has-focus-visible:outline-2 has-focus-visible:outline-offset-2 has-focus-visible:outline-focus"
    >
      {props.word}
      <input
        id={id}
        type="file"
        accept="image/*"
        className="sr-only"
        multiple={!props.camera}
        {...(props.camera && { capture: "environment" as const })}
        onChange={(event) => {
          const input = event.currentTarget;
          void props.onFiles(input.files).finally(() => {
            input.value = ""; // the same photo may be chosen again
          });
        }}
      />
    </label>
  );
}
