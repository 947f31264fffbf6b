/*
 * Judges and costs a plan by the rules of the format alone, in the order in which the format states them. It knows
 * nothing of the search: both sides are plain JSON, and every sum is made here.
 */
// biome-ignore lint/suspicious/noExplicitAny: the checker reads JSON as it comes
type Json = any;

const ALLOWED = 1e-6;

export interface Judgement {
  readonly broken: readonly string[];
  readonly cost: number;
}

export function checkPlan(problem: Json, plan: Json): Judgement {
  const broken: string[] = [];
  const jobs = new Map<string, Json>(problem.jobs.map((job: Json) => [job.id, job]));
  const technicians = new Map<string, Json>(problem.technicians.map((technician: Json) => [technician.id, technician]));
  const objective = problem.objective;
  const weight = (value: Json, priority: number) =>
    value === undefined ? 0 : typeof value === "number" ? value : (value[`${priority}`] ?? 0);
  let cost = 0;
  const times = new Map<string, number>();
  const say = (text: string) => broken.push(text);

  if (plan.format !== "dispatch-plan/1") say("the format is not named");
  if (plan.name !== problem.name) say("the plan bears another name");

  const routed = new Set<string>();
  for (const { technician: id, stops } of plan.routes) {
    const technician = technicians.get(id);
    if (technician === undefined) {
      say(`${id} is nobody`);
      continue;
    }
    if (routed.has(id)) say(`${id} has two routes`);
    routed.add(id);
    const own = stops.filter((stop: Json) => stop.job !== undefined);
    const lunches = stops.filter((stop: Json) => stop.lunch === true);
    if (own.length === 0) {
      if (lunches.length > 0) say(`${id} has lunch and no job`);
      continue;
    }
    const lunch = technician.lunch ?? null;
    if (lunches.length !== (lunch === null ? 0 : 1)) say(`${id} has ${lunches.length} lunches`);
    for (const { start } of lunches)
      if (lunch !== null && (start < lunch.window[0] - ALLOWED || start > lunch.window[1] + ALLOWED))
        say(`${id} has lunch at ${start}, outside its window`);

    const availableFrom = Math.max(
      technician.from ? technician.from.time : technician.shift[0],
      technician.shift[0],
      problem.now ?? 0,
    );
    let where: number = technician.from ? technician.from.location : technician.start;
    let free: number = availableFrom;
    let lunchPending: number | undefined;
    let travelled = 0;
    const parts: Record<string, number> = {};
    let load = 0;
    for (const stop of stops) {
      if (stop.lunch === true) {
        if (stop.start < free - ALLOWED) say(`${id} has lunch before being free`);
        lunchPending = stop.start;
        continue;
      }
      const job = jobs.get(stop.job);
      if (job === undefined) {
        say(`${stop.job} is no job`);
        continue;
      }
      if (times.has(job.id)) say(`${job.id} is planned twice`);
      times.set(job.id, stop.start);
      const way = problem.travelSeconds[where][job.location];
      travelled += way;
      const readyAt =
        lunchPending === undefined ? free + way : Math.max(free + way + lunch.duration, lunchPending + lunch.duration);
      if (!(stop.start >= readyAt - ALLOWED)) say(`${job.id} starts at ${stop.start}, before ${readyAt}`);
      lunchPending = undefined;
      if (
        job.windows !== undefined &&
        !job.windows.some((w: Json) => stop.start >= w[0] - ALLOWED && stop.start <= w[1] + ALLOWED)
      )
        say(`${job.id} starts at ${stop.start}, in none of its windows`);
      if (job.lockedStart !== undefined && Math.abs(stop.start - job.lockedStart) > ALLOWED)
        say(`${job.id} does not start when it is locked to`);
      if (job.lockedTo !== undefined && job.lockedTo !== id) say(`${job.id} is locked to another`);
      if ((job.excludedTechnicians ?? []).includes(id)) say(`${id} is excluded from ${job.id}`);
      for (const skill of job.skills) if (!technician.skills.includes(skill)) say(`${id} lacks ${skill} for ${job.id}`);
      for (const [part, quantity] of Object.entries<number>(job.parts ?? {}))
        parts[part] = (parts[part] ?? 0) + quantity;
      load += job.load ?? 0;

      cost +=
        weight(objective.latenessPerSecond, job.priority) *
        Math.max(0, stop.start - (job.due ?? Number.POSITIVE_INFINITY));
      if (job.releasedAt !== undefined)
        cost += weight(objective.responsePerSecond, job.priority) * Math.max(0, stop.start - job.releasedAt);
      if (job.preferredTechnicians?.length > 0 && !job.preferredTechnicians.includes(id))
        cost += objective.preferenceMiss ?? 0;
      if (job.promised !== undefined) {
        if (job.promised.technician !== id) cost += objective.changeTechnician ?? 0;
        const away = Math.abs(stop.start - job.promised.start) - (job.promised.tolerance ?? 0);
        cost += (objective.changeStartPerSecond ?? 0) * Math.max(0, away);
      }
      free = stop.start + job.duration;
      where = job.location;
    }
    const home = technician.end === null ? 0 : problem.travelSeconds[where][technician.end];
    travelled += home;
    const over =
      lunchPending === undefined ? free + home : Math.max(free + home + lunch.duration, lunchPending + lunch.duration);
    if (over > technician.shift[1] + (technician.maxOvertime ?? 0) + ALLOWED) say(`${id} ends at ${over}, too late`);
    for (const [part, quantity] of Object.entries(parts))
      if (technician.stock !== undefined && quantity > (technician.stock[part] ?? 0) + ALLOWED)
        say(`${id} has too little ${part}`);
    if (load > (technician.capacity ?? Number.POSITIVE_INFINITY) + ALLOWED) say(`${id} carries too much`);
    if (own.length > (technician.maxJobs ?? Number.POSITIVE_INFINITY)) say(`${id} has too many jobs`);
    cost += (objective.travelPerSecond ?? 1) * travelled + (objective.technicianUsed ?? 0);
    cost += (objective.overtimePerSecond ?? 0) * Math.max(0, over - technician.shift[1]);
  }

  const open = new Set<string>();
  for (const { job: id } of plan.unassigned) {
    const job = jobs.get(id);
    if (job === undefined) {
      say(`${id} is no job`);
      continue;
    }
    if (open.has(id) || times.has(id)) say(`${id} is there twice`);
    open.add(id);
    if (job.lockedTo !== undefined || job.lockedStart !== undefined) say(`${id} is locked and left open`);
    cost += weight(objective.unassigned, job.priority);
    if (job.promised !== undefined) cost += objective.dropPromised ?? 0;
  }
  for (const id of jobs.keys()) if (!times.has(id) && !open.has(id)) say(`${id} is nowhere`);
  return { broken, cost };
}
