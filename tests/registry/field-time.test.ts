import { describe, expect, test } from "vitest";
import { clockWords, fieldProfileForm, parseClock, weekForm } from "@/lib/registry/field-time";
import { planningRulesForm } from "@/lib/registry/planning-rules";
import { defaultPlanningRules } from "@/lib/work/day/planning-rules";

const off = { day1: "", day2: "", day3: "", day4: "", day5: "", day6: "", day7: "" };

describe("the hours of a week", () => {
  test.each([
    ["08:00-17:00", 480, 1020],
    [" 8:00 - 17:30 ", 480, 1050],
    ["8:00 to 24:00", 480, 1440],
    ["06:15–14:00", 375, 840],
  ])("%s is read as typed", (day3, begins, ends) => {
    const week = weekForm.parse({ ...off, day3 });
    expect(week[2]).toEqual({ weekday: 3, beginsMinute: begins, endsMinute: ends });
    expect(week.filter(({ beginsMinute }) => beginsMinute !== null)).toHaveLength(1);
  });

  test.each(["17:00-08:00", "8-17", "08:60-12:00", "08:00", "08:00-12:00-13:00", "08:00-08:00", "25:00-26:00"])(
    "%s is refused at its day",
    (day1) => {
      const parsed = weekForm.safeParse({ ...off, day1 });
      expect(parsed.success).toBe(false);
      expect(parsed.error?.issues[0]?.path).toEqual(["day1"]);
    },
  );

  test("a clock time written and read again is the same", () => {
    for (let minutes = 0; minutes <= 1440; minutes += 7) expect(parseClock(clockWords(minutes))).toBe(minutes);
  });
});

test("a base needs both of its numbers", () => {
  const typed = { baseName: "Yard", latitude: "41.1", longitude: "", ridesWith: "", maxVisits: "" };
  expect(fieldProfileForm.safeParse(typed).success).toBe(false);
  expect(fieldProfileForm.parse({ ...typed, longitude: "-87.9", endsAtBase: "on" })).toMatchObject({
    latitude: 41.1,
    longitude: -87.9,
    endsAtBase: true,
    isApprentice: false,
    ridesWith: null,
  });
});

describe("the company's planning rules", () => {
  const typed = {
    maxDayHours: "13",
    maxOvertimeMinutes: "60",
    maxWeekHours: "48",
    minRestHours: "11",
    lunchFrom: "11:30",
    lunchTo: "13:30",
    lunchMinutes: "30",
    startSlackMinutes: "15",
    yardLatitude: "",
    yardLongitude: "",
    roadFactor: "1.3",
    kmhTo5Km: "25",
    kmhTo20Km: "40",
    kmhTo60Km: "60",
    kmhBeyond: "80",
    arrivingMinutes: "3",
  };

  test("hours are kept as minutes", () => {
    expect(planningRulesForm.parse(typed)).toEqual({ ...defaultPlanningRules("eu"), maxOvertimeMinutes: 60 });
  });

  test.each([
    ["lunchTo", ""],
    ["lunchTo", "11:00"],
    ["yardLongitude", "8"],
    ["roadFactor", "0.5"],
    ["kmhTo5Km", ""],
  ])("%s as %j is refused there", (field, value) => {
    const parsed = planningRulesForm.safeParse({ ...typed, [field]: value });
    expect(parsed.error?.issues[0]?.path).toEqual([field]);
  });
});
