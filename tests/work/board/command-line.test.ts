import { expect, test } from "vitest";
import { suggestCommands } from "@/lib/work/board/command-line";
import { ANA, at, BEN, person, visit } from "../day/day-maker";
import { boardOf } from "./board-maker";

const board = boardOf({
  people: [person(ANA), person(BEN)],
  visits: [
    visit({ people: [ANA], plannedStart: at("09:00") }),
    visit(),
    visit({ state: "done", people: [BEN], plannedStart: at("07:00") }),
  ],
});
const first = (line: string) => suggestCommands(board, line)[0];

test("place and a number names the visit of that order or call", () => {
  expect(first("place 2")).toMatchObject({ command: { do: "place", id: board.visits[1]!.id } });
  expect(first("place 102")).toMatchObject({ command: { do: "place", id: board.visits[1]!.id } });
});

test("what has no place comes before what is to be placed anew, and what is over is not offered", () => {
  const ids = suggestCommands(board, "place").map(({ command }) => "id" in command && command.id);
  expect(ids).toEqual([board.visits[1]!.id, board.visits[0]!.id]);
});

test("a customer's name leads to the visit, a technician's to the row", () => {
  expect(first("customer 3")).toMatchObject({ command: { do: "go", id: board.visits[2]!.id } });
  expect(first("ben")).toMatchObject({ command: { do: "person", id: BEN } });
  expect(first("away an")).toMatchObject({ command: { do: "away", id: ANA } });
});

test("an empty line offers what can always be done, and nonsense nothing", () => {
  expect(suggestCommands(board, "").map(({ command }) => command.do)).toEqual(["plan", "undo"]);
  expect(suggestCommands(board, "zzz")).toEqual([]);
});
