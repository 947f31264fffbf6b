/** Times each read so many rounds after two that warm it, and prints milliseconds by name as JSON. */
export async function timeReads(
  reads: Readonly<Record<string, () => Promise<unknown>>>,
  rounds: number,
): Promise<void> {
  const took: Record<string, number[]> = {};
  for (const [name, read] of Object.entries(reads)) {
    took[name] = [];
    for (let round = 0; round < rounds + 2; round += 1) {
      const at = performance.now();
      await read();
      if (round >= 2) took[name].push(performance.now() - at);
    }
  }
  console.log(JSON.stringify(took));
}
