import { type Coordinates, MIXED_ROADS, type RoadProfile } from "@/lib/dispatch";
import type { PlanningLimits } from "./day-records";

/** A company's planning rules as the register holds them. */
export interface PlanningRules {
  maxDayMinutes: number | null;
  maxOvertimeMinutes: number;
  maxWeekMinutes: number | null;
  minRestMinutes: number | null;
  lunchFromMinute: number | null;
  lunchToMinute: number | null;
  lunchMinutes: number;
  startSlackMinutes: number;
  yardLatitude: number | null;
  yardLongitude: number | null;
  roadFactor: number;
  kmhTo5Km: number;
  kmhTo20Km: number;
  kmhTo60Km: number;
  kmhBeyond: number;
  arrivingMinutes: number;
}

/**
 * What holds until a company sets its own. Under the European rules the floor of the law; a member state or an agreement may ask for more.
 * Under the American ones no limit of hours for adults in private work is set here.
 * @source Directive 2003/88/EC: article 3, 11 hours of rest in 24; article 6, 48 hours a week on average (here every week), from memory.
 *   Lunch between 11:30 and 13:30, half an hour: common practice
 */
export function defaultPlanningRules(ruleSet: "us" | "eu"): PlanningRules {
  const [town, near, country, far] = MIXED_ROADS.speeds.map(({ kmPerHour }) => kmPerHour);
  return {
    maxDayMinutes: ruleSet === "eu" ? 13 * 60 : null,
    maxOvertimeMinutes: 0,
    maxWeekMinutes: ruleSet === "eu" ? 48 * 60 : null,
    minRestMinutes: ruleSet === "eu" ? 11 * 60 : null,
    lunchFromMinute: 11 * 60 + 30,
    lunchToMinute: 13 * 60 + 30,
    lunchMinutes: 30,
    startSlackMinutes: 15,
    yardLatitude: null,
    yardLongitude: null,
    roadFactor: MIXED_ROADS.roadFactor,
    kmhTo5Km: town!,
    kmhTo20Km: near!,
    kmhTo60Km: country!,
    kmhBeyond: far!,
    arrivingMinutes: MIXED_ROADS.arrivingS / 60,
  };
}

export function limitsOf(rules: PlanningRules): PlanningLimits {
  const { lunchFromMinute, lunchToMinute, lunchMinutes } = rules;
  const hasLunch = lunchFromMinute !== null && lunchToMinute !== null && lunchMinutes > 0;
  return {
    maxDayMinutes: rules.maxDayMinutes,
    maxOvertimeMinutes: rules.maxOvertimeMinutes,
    maxWeekMinutes: rules.maxWeekMinutes,
    minRestMinutes: rules.minRestMinutes,
    lunch: hasLunch ? { fromMinute: lunchFromMinute, toMinute: lunchToMinute, minutes: lunchMinutes } : null,
    startSlackMinutes: rules.startSlackMinutes,
  };
}

export function roadsOf(rules: PlanningRules): RoadProfile {
  return {
    roadFactor: rules.roadFactor,
    speeds: [
      { upToKm: 5, kmPerHour: rules.kmhTo5Km },
      { upToKm: 20, kmPerHour: rules.kmhTo20Km },
      { upToKm: 60, kmPerHour: rules.kmhTo60Km },
      { upToKm: Number.POSITIVE_INFINITY, kmPerHour: rules.kmhBeyond },
    ],
    arrivingS: Math.round(rules.arrivingMinutes * 60),
  };
}

export function placeOf(latitude: number | null, longitude: number | null): Coordinates | null {
  return latitude === null || longitude === null ? null : { latitudeDeg: latitude, longitudeDeg: longitude };
}
