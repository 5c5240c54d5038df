/** A table that sorts, filters, selects and exports, by mouse, finger and keyboard. */

import { useSignal } from "@preact/signals";
import type { ComponentChildren, JSX } from "preact";
import { useEffect, useId, useMemo, useRef, useState } from "preact/hooks";
import { useAfterPaint } from "../state/after_paint";
import { count, say } from "../state/say";
import { Ranks } from "./ranks";
import { asCsv, type Column, filtered, type Sorting, wordsKept } from "./rows";
import { saveText } from "./save";
import { MANY, ROW, Rows, widthsOf } from "./table_rows";

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

export function Table<Row>(props: Props<Row>): JSX.Element {
  const id = useId();
  const sorting = useSignal<Sorting | null>(props.first ?? null);
  const text = useSignal(props.filter ?? "");
  const from = useSignal(0);
  const frame = useRef<HTMLDivElement>(null);
  const selection = useSignal<ReadonlySet<string>>(new Set());
  const words = useMemo(() => wordsKept(props.rows, props.columns), [props.rows, props.columns]);
  useEffect(() => words.prepare(), [words]);
  const [asked, by] = [useAfterPaint(text.value), useAfterPaint(sorting.value)];
  const found = useMemo(() => filtered(props.rows, asked, words.of), [props.rows, words, asked]);
  const rows = useSorted(props.rows, found, props.columns, by);
  useEffect(() => {
    from.value = 0;
    if (frame.current !== null) frame.current.scrollTop = 0;
  }, [rows]);
  const many = rows.length > MANY;
  const widths = useMemo(
    () => (props.rows.length > MANY ? widthsOf(props.rows, props.columns) : []),
    [props.rows, props.columns],
  );
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
      <div
        class={many ? "table-frame many" : "table-frame"}
        role="region"
        aria-labelledby={`${id}-title`}
        tabIndex={0}
        ref={frame}
        onScroll={(event) => {
          const place = Math.floor(event.currentTarget.scrollTop / ROW);
          from.value = place - (place % 5);
        }}
      >
        <table
          aria-rowcount={many ? rows.length + 1 : undefined}
          style={many ? { minWidth: `${widths.reduce((sum, one) => sum + one, 5)}ch` } : undefined}
        >
          {many && (
            <colgroup>
              {props.selectable === true && <col class="tick" />}
              {widths.map((width, k) => (
                <col key={props.columns[k]?.key} style={{ width: `${width}ch` }} />
              ))}
            </colgroup>
          )}
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
          <Rows
            rows={rows}
            columns={props.columns}
            keyOf={props.keyOf}
            selectable={props.selectable === true}
            selection={selection.value}
            marked={props.chosen ?? null}
            onToggle={toggle}
            from={from}
          />
        </table>
        {rows.length === 0 && <p class="more">{props.empty ?? say("table.empty")}</p>}
      </div>
    </section>
  );
}

/** Rows in the order asked for; of a long list the order of before, until the new one is known. */
function useSorted<Row>(
  all: readonly Row[],
  found: readonly Row[],
  columns: readonly Shown<Row>[],
  by: Sorting | null,
): readonly Row[] {
  const ranks = useMemo(() => new Ranks(all), [all, columns]);
  const [known, setKnown] = useState(0);
  useEffect(() => () => ranks.close(), [ranks]);
  const before = useRef<readonly Row[]>(found);
  const column = columns.find((one) => one.key === by?.key);
  const rows = useMemo(() => {
    if (column === undefined || by === null) return found;
    const order = ranks.by(column, () => setKnown((n) => n + 1));
    return order === null ? null : ranks.sorted(found, order, by.down);
  }, [found, ranks, column, by, known]);
  if (rows !== null) before.current = rows;
  return before.current;
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
