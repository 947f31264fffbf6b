"use client";

/** How strong the proof is, with its reasons. */
export function ProofStrength() {
  return null;
}
