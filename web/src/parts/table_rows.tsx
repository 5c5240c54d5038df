/** The rows of a table that are in sight; of a long one the others are only so much height. */

import type { Signal } from "@preact/signals";
import type { JSX } from "preact";
import { memo } from "preact/compat";
import { useRef } from "preact/hooks";
import { say } from "../state/say";
import type { Column } from "./rows";
import type { Shown } from "./table";

/** A table with more rows than this has rows of one height, and draws those in sight. */
export const MANY = 60;
/** The height of a row of a long table, as table.css sets it. [px] */
export const ROW = 45;
/** Rows in sight at most, and how many are drawn before and after them. */
const SIGHT = 24;
const AROUND = 10;

interface Props<Row> {
  readonly rows: readonly Row[];
  readonly columns: readonly Shown<Row>[];
  readonly keyOf: (row: Row) => string;
  readonly selectable: boolean;
  readonly selection: ReadonlySet<string>;
  readonly marked: string | null;
  readonly onToggle: (key: string) => void;
  /** The first row in sight. */
  readonly from: Signal<number>;
}

export function Rows<Row>(props: Props<Row>): JSX.Element {
  const { rows, keyOf } = props;
  const held = useRef<string | null>(null);
  const many = rows.length > MANY;
  const first = many ? Math.max(0, Math.min(props.from.value, rows.length - SIGHT) - AROUND) : 0;
  const last = many ? Math.min(rows.length, first + SIGHT + 2 * AROUND) : rows.length;
  const places = Array.from({ length: last - first }, (_, k) => first + k);
  const kept = many && held.current !== null ? placeOf(rows, keyOf, held.current) : -1;
  if (kept >= 0 && kept < first) places.unshift(kept);
  if (kept >= last) places.push(kept);
  const drawn: JSX.Element[] = [];
  let next = 0;
  const gap = (to: number): void => {
    if (to > next) drawn.push(<Space key={`space ${next}`} rows={to - next} />);
  };
  for (const place of places) {
    const row = rows[place] as Row;
    const key = keyOf(row);
    gap(place);
    next = place + 1;
    drawn.push(
      <Line
        key={key}
        id={key}
        place={many ? place : null}
        row={row}
        columns={props.columns as readonly Shown<unknown>[]}
        selectable={props.selectable}
        selected={props.selection.has(key)}
        marked={props.marked === key}
        onToggle={props.onToggle}
      />,
    );
  }
  gap(rows.length);
  return (
    <tbody
      onFocusIn={(event) => {
        const row = (event.target as HTMLElement).closest("tr");
        held.current = row?.dataset.key ?? null;
      }}
      onFocusOut={() => {
        held.current = null;
      }}
    >
      {drawn}
    </tbody>
  );
}

function placeOf<Row>(rows: readonly Row[], keyOf: (row: Row) => string, key: string): number {
  return rows.findIndex((row) => keyOf(row) === key);
}

/** The room of rows that are not drawn. */
function Space({ rows }: { rows: number }): JSX.Element {
  return (
    <tr class="space" aria-hidden="true">
      <td colSpan={100} style={{ height: `${rows * ROW}px` }} />
    </tr>
  );
}

interface LineProps {
  readonly id: string;
  readonly place: number | null;
  readonly row: unknown;
  readonly columns: readonly Shown<unknown>[];
  readonly selectable: boolean;
  readonly selected: boolean;
  readonly marked: boolean;
  readonly onToggle: (key: string) => void;
}

/** One row; drawn again only when something of its own changed. */
const Line = memo(function Line(props: LineProps): JSX.Element {
  const { id, place, row, columns, selectable, selected, marked, onToggle } = props;
  return (
    <tr
      data-key={id}
      aria-rowindex={place === null ? undefined : place + 2}
      aria-selected={selected || marked ? "true" : undefined}
    >
      {selectable && (
        <td class="tick">
          <label>
            <input
              type="checkbox"
              aria-label={say("table.choose", { id })}
              checked={selected}
              onChange={() => onToggle(id)}
            />
          </label>
        </td>
      )}
      {columns.map((column) => (
        <td key={column.key} class={cellClass(column, row)}>
          {column.cell?.(row) ?? column.value(row)}
        </td>
      ))}
    </tr>
  );
});

const LONG = 40;

/** Long words get room, so that a narrow window scrolls rather than stacks letters. */
function cellClass<Row>(column: Column<Row>, row: Row): string {
  if (column.number === true) return "number";
  if (column.id === true) return "id";
  return String(column.value(row) ?? "").length > LONG ? "long" : "";
}

/** Rows looked at for the width of a column whose words may be long. */
const LOOKED_AT = 300;
const NUMBER = 13;
const WIDEST = 60;
/** What a frame or sign in a cell takes beside its words. */
const SIGN = 6;
/** How wide a letter of words is on the mean, in those the width is told in. */
const LETTER = 0.86;

/** How many letters wide each column of a long table stands, whatever rows are in sight. */
export function widthsOf<Row>(
  rows: readonly Row[],
  columns: readonly Shown<Row>[],
): readonly number[] {
  return columns.map((column) => {
    const head = LETTER * column.head.length + 4;
    if (column.number === true) return Math.max(head, NUMBER);
    const step = column.id === true ? 1 : Math.max(1, Math.floor(rows.length / LOOKED_AT));
    let most = 0;
    for (let k = 0; k < rows.length; k += step) {
      const words = String(column.value(rows[k] as Row) ?? "").length;
      if (words > most) most = words;
    }
    if (column.id === true) return Math.max(head, Math.min(most + 3, WIDEST));
    const sign = column.cell === undefined ? 0 : SIGN;
    return Math.max(head, Math.min(LETTER * most + sign + 3, WIDEST));
  });
}
