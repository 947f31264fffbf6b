"use client";

import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { OIL_HOURS_LIMIT } from "@/lib/registry/tool-faults";
import { makeSafeWords } from "@/lib/words/en/make-safe";
import { listToolWarnings, roomToRecover } from "@/lib/work/own-kit";
import { useDevice } from "../device/device-context";
import { useJobHere } from "../job/job-context";
import type { JobTool } from "../job/job-heading";
import { siteDay } from "../today/site-clock";
import { useUnits } from "../units/unit-choices";

/** What this person brings, looked over before anything is opened, while another can still be fetched. */
export function OwnKit() {
  const { person } = useDevice();
  const { job } = useJobHere();
  const units = useUnits();
  const { circuit } = job.state;
  const fact = circuit?.refrigerant;
  const need = {
    refrigerant: fact?.state === "identified" ? { name: fact.refrigerant, safetyClass: fact.safetyClass } : null,
    fullChargeKg: circuit?.fullChargeKg ?? null,
  };
  const today = siteDay(Date.now(), job.heading.job.site.timeZone);
  const own = <T extends { readonly heldBy?: string | null }>(all: readonly T[]) =>
    all.filter(({ heldBy }) => heldBy === person.desk.person);
  const tools = own(job.heading.tools);
  const cylinders = own(job.heading.cylinders);
  const warnings = listToolWarnings(tools, need, today);
  const { roomKg, fit, unfit } = roomToRecover(cylinders, need, today);
  const others = roomToRecover(
    job.heading.cylinders.filter((each) => !cylinders.includes(each)),
    need,
    today,
  ).fit.filter(({ roomKg: room }) => room > 0);
  const isShort = roomKg !== null && need.fullChargeKg !== null && roomKg < need.fullChargeKg;
  const mass = (kg: number) => units.words("mass", kg);
  return (
    <Section title={makeSafeWords.whatYouBring} lead={makeSafeWords.beforeAnythingIsOpened}>
      <ul className="grid gap-2">
        {warnings.map((line) => (
          <li key={line}>
            <StateMark state="needs-you" word={makeSafeWords.makesTheProofWeaker(line)} />
          </li>
        ))}
        {unfit.map((line) => (
          <li key={line}>
            <StateMark state="needs-you" word={line} />
          </li>
        ))}
        {tools.length === 0 ? (
          <li>
            <StateMark state="needs-you" word={makeSafeWords.noToolIsYours} />
          </li>
        ) : (
          warnings.length === 0 && (
            <li>
              <StateMark state="proven" word={makeSafeWords.toolsInDate(tools.length)} />
            </li>
          )
        )}
        {tools
          .filter(({ kind }) => kind === "pump")
          .map((pump) => (
            <li key={pump.id} className="pl-7">
              {makeSafeWords.pumpOil(
                pump.name,
                pump.oilRunHours === null ? null : Math.round(pump.oilRunHours * 10) / 10,
                OIL_HOURS_LIMIT,
              )}
            </li>
          ))}
        {roomKg !== null && (
          <li>
            <StateMark
              state={isShort ? "needs-you" : "proven"}
              word={
                cylinders.length === 0
                  ? makeSafeWords.noCylinderIsYours(need.fullChargeKg === null ? null : mass(need.fullChargeKg))
                  : makeSafeWords.roomFor(
                      roomKg === 0 ? null : units.both("mass", roomKg),
                      need.refrigerant?.name,
                      need.fullChargeKg === null ? null : mass(need.fullChargeKg),
                    )
              }
            />
          </li>
        )}
        {isShort && others.length > 0 && (
          <li className="pl-7">
            {makeSafeWords.roomElsewhere(
              others.map(({ label, roomKg: room }) => `${label} (${mass(room)})`).join(", "),
            )}
          </li>
        )}
      </ul>
      {tools.length + cylinders.length > 0 && (
        <details>
          <summary className="flex min-h-(--control) w-fit cursor-pointer items-center font-semibold text-action">
            {makeSafeWords.eachOfThem}
          </summary>
          <Facts
            items={[
              ...tools.map((tool) => ({ term: tool.name, value: makeSafeWords.toolStands(standingOf(tool)) })),
              ...cylinders.map((cylinder) => {
                const room = fit.find(({ label }) => label === cylinder.label);
                return {
                  term: cylinder.label,
                  value: makeSafeWords.cylinderStands({
                    contents: cylinder.refrigerant,
                    inIt: mass(cylinder.contentsKg),
                    requalifyBy: cylinder.requalifyBy?.slice(0, 10) ?? null,
                    room: room ? mass(room.roomKg) : null,
                  }),
                };
              }),
            ]}
          />
        </details>
      )}
    </Section>
  );
}

/** What there is to know of a tool before it is leaned on. */
function standingOf(tool: JobTool) {
  return {
    calibratedUntil: tool.calibrationDueOn?.slice(0, 10) ?? null,
    lookDue: tool.checkDueOn?.slice(0, 10) ?? null,
    ratedFor: tool.ratedFor,
  };
}
