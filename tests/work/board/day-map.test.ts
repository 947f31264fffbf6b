import { expect, test } from "vitest";
import { greatCircleKm } from "@/lib/dispatch";
import { drawDayMap } from "@/lib/work/board/day-map";
import { ANA, at, person, visit } from "../day/day-maker";
import { boardOf } from "./board-maker";

const north = { latitudeDeg: 39.9, longitudeDeg: -105 };
const east = { latitudeDeg: 39.6, longitudeDeg: -104.6 };
const base = { latitudeDeg: 39.7, longitudeDeg: -104.9 };

test("north is up, east is right, distances are true within a percent over a day's area", () => {
  const visits = [
    visit({ people: [ANA], plannedStart: at("09:00"), at: north }),
    visit({ people: [ANA], plannedStart: at("11:00"), at: east }),
    visit({ at: null }),
  ];
  const map = drawDayMap(boardOf({ people: [person(ANA, { base })], visits }));
  const [first, second] = map.routes[0]!.stops.map(({ point }) => point);
  expect(first!.y).toBeLessThan(second!.y);
  expect(first!.x).toBeLessThan(second!.x);
  const drawnKm = (Math.hypot(first!.x - second!.x, first!.y - second!.y) / map.bar.length) * map.bar.km;
  expect(Math.abs(drawnKm / greatCircleKm(north, east) - 1)).toBeLessThan(0.01);
  expect(map.routes[0]!.way).toHaveLength(4);
  expect(map.unmapped.map(({ label }) => label)).toEqual(["Work order 3"]);
});

test("a single place is drawn in the middle", () => {
  const map = drawDayMap(
    boardOf({
      people: [person(ANA, { base })],
      visits: [visit({ people: [ANA], plannedStart: at("09:00"), at: base })],
    }),
  );
  const { point } = map.routes[0]!.stops[0]!;
  expect([point.x, point.y]).toEqual([map.width / 2, map.height / 2]);
});
