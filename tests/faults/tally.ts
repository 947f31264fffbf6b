import type { RunReport } from "./play-run";

/** What the runs went through, in lines to print. */
export function tallyOf(reports: readonly RunReport[], seconds: number): string {
  const sum = (pick: (report: RunReport) => number) => reports.reduce((total, report) => total + pick(report), 0);
  const counts = (pick: (report: RunReport) => ReadonlyMap<string, number>) => {
    const all = new Map<string, number>();
    for (const report of reports) for (const [name, count] of pick(report)) all.set(name, (all.get(name) ?? 0) + count);
    return [...all].map(([name, count]) => `${name} ${count}`).join(", ");
  };
  const broken = reports.filter(({ violations }) => violations.length > 0);
  return [
    `${reports.length} runs in ${seconds.toFixed(1)} s: ${sum((run) => run.saved)} entries saved on devices, ${sum((run) => run.received)} in the logs, ${sum((run) => run.quarantined)} in quarantine`,
    `happenings: ${counts((run) => run.happenings)}`,
    `network: ${counts((run) => run.fates)}`,
    `faults armed in the database: ${sum((run) => run.serverFaults)}`,
    `runs with something lost, doubled or seen differently: ${broken.length}`,
  ].join("\n");
}
