"use client";

import { type PointerEvent, useEffect, useRef, useState } from "react";
import { Button } from "@/components/ui/button";
import { FieldError } from "@/components/ui/field";
import { TextInput } from "@/components/ui/text-input";
import { dropPicture, keepPicture, type PictureReference } from "@/lib/sync/device";
import { picturesWords } from "@/lib/words/en/pictures";
import { useDevice } from "../device/device-context";
import { useField } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import { Picture } from "./picture";
import { bytesOf } from "./shrink";

const [WIDTH, HEIGHT] = [900, 300];
const PEN_PX = 4;

/** The customer's name under the work, by finger, pen or mouse; or typed, for whoever cannot draw it here. */
export function SignatureField({ at, label, of }: { at: string; label: string; of: string }) {
  const { store, desk } = useDevice();
  const { job } = useJobHere();
  const field = useField<PictureReference>(at);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [drawn, setDrawn] = useState(false);
  const [typed, setTyped] = useState("");
  const [last, setLast] = useState<{ x: number; y: number } | null>(null);
  const kept = field.value;

  useEffect(() => {
    if (!kept && canvas.current) blank(canvas.current);
  }, [kept]);

  async function keep() {
    const paper = canvas.current;
    if (!paper) return;
    if (!drawn && typed.trim()) writeName(paper, typed.trim());
    const bytes = await bytesOf(paper, "image/png");
    if (bytes) field.set(await keepPicture(store, desk, job.id, bytes));
    setDrawn(false);
    setTyped("");
  }
  async function again() {
    const before = kept?.attachment;
    field.set(null);
    if (before) await dropPicture(store, desk, before);
  }
  function draw(event: PointerEvent<HTMLCanvasElement>) {
    const to = pointIn(event);
    if (!last) return;
    line(event.currentTarget, last, to);
    setLast(to);
    setDrawn(true);
  }

  if (kept)
    return (
      <div className="grid justify-items-start gap-2">
        <span className="font-semibold">{label}</span>
        <Picture id={kept.attachment} job={job.id} alt={label} />
        <Button onClick={() => void again()}>{picturesWords.signAgain}</Button>
      </div>
    );
  return (
    <div className="grid gap-2" data-open-field={field.problem ? "" : undefined}>
      <span className="font-semibold">{label}</span>
      <p className="text-small text-ink-soft">{of}</p>
      <canvas
        ref={canvas}
        width={WIDTH}
        height={HEIGHT}
        role="img"
        aria-label={picturesWords.signHere}
        className="aspect-3/1 w-full touch-none rounded-control border border-edge bg-white"
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          setLast(pointIn(event));
        }}
        onPointerMove={draw}
        onPointerUp={() => setLast(null)}
        onPointerCancel={() => setLast(null)}
      />
      <TextInput
        label={picturesWords.orTheNameTyped}
        value={typed}
        maxLength={80}
        onChange={(event) => setTyped(event.target.value)}
      />
      <FieldError id={`${at}-signature`}>{field.problem}</FieldError>
      <div className="flex flex-wrap gap-3">
        <Button aria-disabled={!drawn && typed.trim() === ""} onClick={() => (drawn || typed.trim()) && void keep()}>
          {picturesWords.keepThisSignature}
        </Button>
        <Button
          kind="plain"
          onClick={() => {
            if (canvas.current) blank(canvas.current);
            setDrawn(false);
            setTyped("");
          }}
        >
          {picturesWords.clear}
        </Button>
      </div>
    </div>
  );
}

function pointIn(event: PointerEvent<HTMLCanvasElement>) {
  const box = event.currentTarget.getBoundingClientRect();
  return {
    x: ((event.clientX - box.left) / box.width) * WIDTH,
    y: ((event.clientY - box.top) / box.height) * HEIGHT,
  };
}

/** White whatever the page's colours are: it is printed and looked at later by others. */
function blank(canvas: HTMLCanvasElement) {
  const pen = canvas.getContext("2d");
  if (!pen) return;
  pen.fillStyle = "white";
  pen.fillRect(0, 0, WIDTH, HEIGHT);
}

function line(canvas: HTMLCanvasElement, from: { x: number; y: number }, to: { x: number; y: number }) {
  const pen = canvas.getContext("2d");
  if (!pen) return;
  pen.strokeStyle = "black";
  pen.lineWidth = PEN_PX;
  pen.lineCap = "round";
  pen.beginPath();
  pen.moveTo(from.x, from.y);
  pen.lineTo(to.x, to.y);
  pen.stroke();
}

function writeName(canvas: HTMLCanvasElement, name: string) {
  const pen = canvas.getContext("2d");
  if (!pen) return;
  blank(canvas);
  pen.fillStyle = "black";
  pen.font = "64px serif";
  pen.fillText(name, 40, HEIGHT * 0.6, WIDTH - 80);
  pen.font = "24px sans-serif";
  pen.fillText(picturesWords.typedOnTheTablet, 40, HEIGHT * 0.85);
}
