import type { Metadata } from "next";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findPlanningRules } from "@/lib/db/dispatch/planning-rules";
import { withTenant } from "@/lib/db/tenant";
import { clockWords } from "@/lib/registry/field-time";
import type { PlanningRules } from "@/lib/work/day/planning-rules";
import { changePlanningRules } from "./actions";

export const metadata: Metadata = { title: "Planning the day" };

export default async function PlanningSettingsPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const { companyId, ruleSet } = await requireMember(company, ...office);
  const rules = await withTenant(companyId, (tx) => findPlanningRules(tx, ruleSet));
  return (
    <>
      <PageHeader title="Planning the day" back={{ href: `/${company}/people`, label: "People" }} />
      <RegisterForm
        action={changePlanningRules}
        hidden={{ company }}
        submit="Save"
        saved="Planning saved"
        values={valuesOf(rules)}
        parts={[
          { title: "Working time", lead: workingTimeLead, fields: workingTimeFields },
          { title: "Roads", lead: roadsLead, fields: roadFields },
        ]}
      />
    </>
  );
}

const workingTimeLead =
  "The plan keeps to these and to each person's hours. The law, an agreement or a contract may ask for more; the employer answers for it.";
const workingTimeFields = [
  { name: "maxDayHours", label: "A day, at most", unit: "h", optional: true },
  { name: "maxOvertimeMinutes", label: "Past the end of a shift, at most", unit: "min" },
  { name: "maxWeekHours", label: "A week, at most", unit: "h", optional: true },
  { name: "minRestHours", label: "Rest between two days, at least", unit: "h", optional: true },
  { name: "lunchFrom", label: "Lunch begins from", kind: "text" as const, optional: true, hint: "As 11:30." },
  { name: "lunchTo", label: "Lunch begins by", kind: "text" as const, optional: true },
  { name: "lunchMinutes", label: "Lunch takes", unit: "min", hint: "Taken on days longer than six hours." },
  { name: "startSlackMinutes", label: "A start may move by", unit: "min", hint: "More counts as a change." },
].map((field) => ({ kind: "number" as const, ...field }));

const roadsLead =
  "How long the ways take where no road service is set up: the straight distance, made longer, at these speeds.";
const roadFields = [
  { name: "yardLatitude", label: "Yard, latitude", unit: "°", optional: true },
  { name: "yardLongitude", label: "Yard, longitude", unit: "°", optional: true },
  { name: "roadFactor", label: "Road length over straight distance", unit: "times" },
  { name: "arrivingMinutes", label: "Parking and finding the door", unit: "min" },
  { name: "kmhTo5Km", label: "Speed for the first 5 km", unit: "km/h" },
  { name: "kmhTo20Km", label: "From 5 to 20 km", unit: "km/h" },
  { name: "kmhTo60Km", label: "From 20 to 60 km", unit: "km/h" },
  { name: "kmhBeyond", label: "Beyond 60 km", unit: "km/h" },
].map((field) => ({ kind: "number" as const, ...field }));

function valuesOf(rules: PlanningRules): Record<string, string> {
  const hours = (minutes: number | null) => (minutes === null ? "" : String(minutes / 60));
  const clock = (minutes: number | null) => (minutes === null ? "" : clockWords(minutes));
  const { maxDayMinutes, maxWeekMinutes, minRestMinutes, lunchFromMinute, lunchToMinute, ...same } = rules;
  return {
    ...Object.fromEntries(Object.entries(same).map(([name, value]) => [name, value === null ? "" : String(value)])),
    maxDayHours: hours(maxDayMinutes),
    maxWeekHours: hours(maxWeekMinutes),
    minRestHours: hours(minRestMinutes),
    lunchFrom: clock(lunchFromMinute),
    lunchTo: clock(lunchToMinute),
  };
}
