/** A table that sorts, filters, selects and exports, by mouse, finger and keyboard. */

import { useSignal } from "@preact/signals";
import type { ComponentChildren, JSX } from "preact";
import { memo } from "preact/compat";
import { useEffect, useId, useMemo, useRef } from "preact/hooks";
import { useAfterPaint } from "../state/after_paint";
import { count, say } from "../state/say";
import { asCsv, type Column, filtered, type Sorting, sorted, wordsKept } from "./rows";
import { saveText } from "./save";

export interface Shown<Row> extends Column<Row> {
  readonly cell?: (row: Row) => ComponentChildren;
  /** The words a filter looks in, when the value does not hold them. */
  readonly words?: (row: Row) => string;
}

interface Props<Row> {
  readonly title: string;
  readonly rows: readonly Row[];
  readonly columns: readonly Shown<Row>[];
  readonly keyOf: (row: Row) => string;
  /** Name of the exported file; no export without it. */
  readonly file?: string;
  readonly first?: Sorting;
  readonly filter?: string;
  readonly selectable?: boolean;
  readonly chosen?: string | null;
  readonly tools?: ComponentChildren;
  readonly onSelect?: (keys: ReadonlySet<string>) => void;
  readonly empty?: string;
}

/** Rows drawn at once: few before the first picture, a screenful or three after it. */
const FIRST = 25;
const PAGE = 100;

export function Table<Row>(props: Props<Row>): JSX.Element {
  const id = useId();
  const sorting = useSignal<Sorting | null>(props.first ?? null);
  const text = useSignal(props.filter ?? "");
  const limit = useSignal(FIRST);
  const selection = useSignal<ReadonlySet<string>>(new Set());
  useEffect(() => {
    const soon = setTimeout(() => {
      limit.value = Math.max(limit.peek(), PAGE);
    }, 60);
    return () => clearTimeout(soon);
  }, []);
  const words = useMemo(() => wordsKept(props.rows, props.columns), [props.rows, props.columns]);
  useEffect(() => words.prepare(), [words]);
  const [asked, by] = [useAfterPaint(text.value), useAfterPaint(sorting.value)];
  const found = useMemo(() => filtered(props.rows, asked, words.of), [props.rows, words, asked]);
  const rows = useMemo(() => sorted(found, props.columns, by), [found, props.columns, by]);
  const select = (keys: ReadonlySet<string>): void => {
    selection.value = keys;
    props.onSelect?.(keys);
  };
  const latest = useRef<(key: string) => void>(() => {});
  latest.current = (key: string): void => {
    const next = new Set(selection.value);
    if (!next.delete(key)) next.add(key);
    select(next);
  };
  const toggle = useMemo(() => (key: string) => latest.current(key), []);
  const exported = (): void => {
    const kept =
      selection.value.size === 0
        ? rows
        : rows.filter((row) => selection.value.has(props.keyOf(row)));
    saveText(`${props.file ?? "table"}.csv`, asCsv(kept, props.columns));
  };
  return (
    <section>
      <h2 id={`${id}-title`} class={props.title === "" ? "hidden-words" : ""}>
        {props.title === "" ? say("table.table") : props.title}
      </h2>
      {(props.rows.length > 8 || props.file !== undefined || props.tools !== undefined) && (
        <div class="table-tools">
          <div class="search">
            <label for={`${id}-find`}>{say("table.filter")}</label>
            <input
              id={`${id}-find`}
              type="search"
              value={text.value}
              onInput={(event) => {
                text.value = event.currentTarget.value;
                limit.value = PAGE;
              }}
            />
          </div>
          {props.tools}
          {props.file !== undefined && (
            <button type="button" onClick={exported} disabled={rows.length === 0}>
              {selection.value.size === 0
                ? say("table.export")
                : say("table.exportChosen", { n: selection.value.size })}
            </button>
          )}
          <span role="status" class="soft">
            {rows.length === props.rows.length
              ? count("table.row", "table.rows", rows.length)
              : say("table.rowsOf", { n: rows.length, all: props.rows.length })}
          </span>
        </div>
      )}
      <div class="table-frame" role="region" aria-labelledby={`${id}-title`} tabIndex={0}>
        <table>
          <thead>
            <tr>
              {props.selectable === true && (
                <th scope="col" class="tick">
                  <label>
                    <input
                      type="checkbox"
                      aria-label={say("table.chooseAll")}
                      checked={
                        rows.length > 0 &&
                        rows.every((row) => selection.value.has(props.keyOf(row)))
                      }
                      onChange={(event) =>
                        select(
                          event.currentTarget.checked ? new Set(rows.map(props.keyOf)) : new Set(),
                        )
                      }
                    />
                  </label>
                </th>
              )}
              {props.columns.map((column) => (
                <Head
                  key={column.key}
                  column={column}
                  sorting={sorting.value}
                  onSort={(by) => {
                    sorting.value = by;
                  }}
                />
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, limit.value).map((row) => {
              const key = props.keyOf(row);
              return (
                <Line
                  key={key}
                  id={key}
                  row={row}
                  columns={props.columns as readonly Shown<unknown>[]}
                  selectable={props.selectable === true}
                  selected={selection.value.has(key)}
                  marked={props.chosen === key}
                  onToggle={toggle}
                />
              );
            })}
          </tbody>
        </table>
        {rows.length === 0 && <p class="more">{props.empty ?? say("table.empty")}</p>}
        {rows.length > limit.value && (
          <div class="more">
            <button
              type="button"
              onClick={() => {
                limit.value += 4 * PAGE;
              }}
            >
              {say("table.more", { n: rows.length - limit.value })}
            </button>
          </div>
        )}
      </div>
    </section>
  );
}

interface LineProps {
  readonly id: string;
  readonly row: unknown;
  readonly columns: readonly Shown<unknown>[];
  readonly selectable: boolean;
  readonly selected: boolean;
  readonly marked: boolean;
  readonly onToggle: (key: string) => void;
}

/** One row; drawn again only when something of its own changed. */
const Line = memo(function Line(props: LineProps): JSX.Element {
  const { id, row, columns, selectable, selected, marked, onToggle } = props;
  return (
    <tr aria-selected={selected || marked ? "true" : undefined}>
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

interface HeadProps<Row> {
  readonly column: Shown<Row>;
  readonly sorting: Sorting | null;
  readonly onSort: (by: Sorting | null) => void;
}

function Head<Row>({ column, sorting, onSort }: HeadProps<Row>): JSX.Element {
  const mine = sorting?.key === column.key ? sorting : null;
  const next =
    mine === null ? { key: column.key, down: false } : mine.down ? null : { ...mine, down: true };
  return (
    <th
      scope="col"
      class={column.number ? "number" : ""}
      aria-sort={mine === null ? "none" : mine.down ? "descending" : "ascending"}
    >
      <button type="button" onClick={() => onSort(next)}>
        {column.head}
        <svg width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
          <path
            d={mine === null ? "M3 6h6" : mine.down ? "M2 3h8L6 10z" : "M2 9h8L6 2z"}
            fill="currentColor"
            stroke="currentColor"
          />
        </svg>
      </button>
    </th>
  );
}
