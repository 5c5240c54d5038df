/** A table that sorts, filters, selects and exports, by mouse, finger and keyboard. */

import { useSignal } from "@preact/signals";
import type { ComponentChildren, JSX } from "preact";
import { useId } from "preact/hooks";
import { count, say } from "../state/say";
import { asCsv, type Column, filtered, type Sorting, sorted } from "./rows";
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

const PAGE = 150;

export function Table<Row>(props: Props<Row>): JSX.Element {
  const id = useId();
  const sorting = useSignal<Sorting | null>(props.first ?? null);
  const text = useSignal(props.filter ?? "");
  const limit = useSignal(PAGE);
  const selection = useSignal<ReadonlySet<string>>(new Set());
  const words = (column: Column<Row>, row: Row): string =>
    (column as Shown<Row>).words?.(row) ?? String(column.value(row) ?? "");
  const rows = sorted(
    filtered(props.rows, props.columns, text.value, words),
    props.columns,
    sorting.value,
  );
  const select = (keys: ReadonlySet<string>): void => {
    selection.value = keys;
    props.onSelect?.(keys);
  };
  const toggle = (key: string): void => {
    const next = new Set(selection.value);
    if (!next.delete(key)) next.add(key);
    select(next);
  };
  const exported = (): void => {
    const kept =
      selection.value.size === 0
        ? rows
        : rows.filter((row) => selection.value.has(props.keyOf(row)));
    saveText(`${props.file ?? "table"}.csv`, asCsv(kept, props.columns));
  };
  return (
    <section aria-labelledby={`${id}-title`}>
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
                <tr
                  key={key}
                  aria-selected={
                    props.chosen === key || selection.value.has(key) ? "true" : undefined
                  }
                >
                  {props.selectable === true && (
                    <td class="tick">
                      <label>
                        <input
                          type="checkbox"
                          aria-label={say("table.choose", { id: key })}
                          checked={selection.value.has(key)}
                          onChange={() => toggle(key)}
                        />
                      </label>
                    </td>
                  )}
                  {props.columns.map((column) => (
                    <td key={column.key} class={cellClass(column, row)}>
                      {column.cell?.(row) ?? column.value(row)}
                    </td>
                  ))}
                </tr>
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
