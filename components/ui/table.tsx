import type { ReactNode } from "react";
import { classNames } from "./class-names";

export type Column<Row> = {
  key: string;
  header: string;
  cell: (row: Row) => ReactNode;
  /** Figures stand under each other on the right. */
  numeric?: boolean;
  /** Names the row for screen readers; the first column unless another says so. */
  rowHeader?: boolean;
  className?: string;
};

/**
 * Rows under a caption. Narrow, it either becomes a sheet a row ("cards") or scrolls sideways ("scroll") in a region
 * the keyboard can reach. The head stays in sight within a box that scrolls (`maxHeight`, any CSS length).
 */
export function Table<Row>(props: {
  caption: string;
  captionHidden?: boolean;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  rowKey: (row: Row) => string;
  /** Stands in place of rows when there are none. */
  empty?: ReactNode;
  narrow?: "cards" | "scroll";
  maxHeight?: string;
  rowState?: (row: Row) => "chosen" | undefined;
}) {
  const { caption, columns, rows, narrow = "scroll", maxHeight } = props;
  if (rows.length === 0 && props.empty) return props.empty;
  const headerKey = (columns.find((column) => column.rowHeader) ?? columns[0])?.key;
  const table = (
    <table className="w-full border-collapse text-left">
      <caption className={props.captionHidden ? "sr-only" : "pb-2 text-left text-small text-ink-soft"}>
        {caption}
      </caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th
              key={column.key}
              scope="col"
              className={classNames(
                "sticky top-0 border-b border-edge bg-ground px-2 py-1.5 text-small font-medium text-ink-soft first:pl-0 last:pr-0",
                column.numeric && "text-right",
              )}
            >
              {column.header}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr
            key={props.rowKey(row)}
            className={classNames(
              "border-b border-hairline hover:bg-sunk",
              props.rowState?.(row) === "chosen" && "bg-sunk shadow-[inset_3px_0_0_var(--action)]",
            )}
          >
            {columns.map((column) => {
              const Cell = column.key === headerKey ? "th" : "td";
              return (
                <Cell
                  key={column.key}
                  data-heading={column.header}
                  {...(Cell === "th" && { scope: "row" })}
                  className={classNames(
                    "px-2 py-1.5 align-baseline font-normal first:pl-0 last:pr-0",
                    Cell === "th" && "font-medium",
                    column.numeric && "text-right tabular-nums",
                    column.className,
                  )}
                >
                  {column.cell(row)}
                </Cell>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
  if (narrow === "cards" && !maxHeight) return <div className="table-cards">{table}</div>;
  return (
    <section
      aria-label={caption}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
      tabIndex={0}
      className={classNames("overflow-auto", narrow === "cards" && "table-cards")}
      style={maxHeight ? { maxHeight } : undefined}
    >
      {table}
    </section>
  );
}
