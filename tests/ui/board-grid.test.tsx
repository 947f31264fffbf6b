import { createRef } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { BoardGrid, barKey } from "@/app/(office)/[company]/board/_components/board-grid";
import { rowHeightPx, rowTops } from "@/app/(office)/[company]/board/_components/row-heights";
import { indexBoard } from "@/lib/work/board/board-index";
import { layOutRow } from "@/lib/work/board/rows";
import { scaleOf } from "@/lib/work/board/time-scale";
import { boardOf } from "../work/board/board-maker";
import { at, person, visit } from "../work/day/day-maker";

/** Sixty people with one visit each, as the server sends them. */
function sixtyRows(given: { tabStop?: string; heldRow?: string } = {}) {
  const people = Array.from({ length: 60 }, (_, n) => person(`person-${n}`, { name: `Person ${n}` }));
  const visits = people.map(({ personId }, n) =>
    visit({ id: `visit-${n}`, plannedStart: at("09:00"), people: [personId] }),
  );
  const board = boardOf({ people, visits });
  const index = indexBoard(board);
  const scale = scaleOf(board.days, board.visits);
  const rows = board.people.map((person) => ({ person, row: layOutRow(board, scale, index.stopsOf(person.id, 0)) }));
  const html = renderToStaticMarkup(
    <BoardGrid
      board={board}
      index={index}
      scale={scale}
      rows={rows}
      tops={rowTops(rows.map(({ row }) => rowHeightPx(row))).tops}
      heldRow={given.heldRow ?? null}
      gaps={new Map()}
      selected={null}
      tabStop={given.tabStop ?? null}
      dimmed={null}
      scroller={createRef()}
      surface={createRef()}
      onPointerDown={() => {}}
      onSelect={() => {}}
      onFocusBar={() => {}}
      onHover={() => {}}
      onGoTo={() => {}}
      onCarry={() => {}}
      over={({ from, to }) => `drawn ${from} to ${to}`}
    />,
  );
  const drawn = new Set([...html.matchAll(/data-bar="visit-(\d+)"/g)].map(([, n]) => Number(n)));
  return { html, drawn };
}

describe("a board of sixty people", () => {
  const { html, drawn } = sixtyRows();

  test("draws the bars that may be seen on a large screen, and not all", () => {
    expect(drawn.has(0)).toBe(true);
    expect(drawn.has(15)).toBe(true); // 16 rows of 57 px are 900 px
    expect(drawn.size).toBeLessThan(30);
  });

  test("names everybody, and says in words what is on a row too far to be drawn", () => {
    for (let n = 0; n < 60; n++) {
      expect(html).toContain(`>Person ${n}<`);
      expect(html).toContain(`Customer ${n + 1}`);
    }
    expect(html).toContain("09:00 Customer 60");
  });

  test("draws the row that holds the tab stop, and the one something was taken from, wherever they are", () => {
    expect(sixtyRows({ tabStop: barKey("visit-58", "person-58") }).drawn.has(58)).toBe(true);
    expect(sixtyRows({ heldRow: "person-55" }).drawn.has(55)).toBe(true);
  });
});
