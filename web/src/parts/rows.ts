/** Sorting, filtering and writing out rows; no page knowledge. */

export interface Column<Row> {
  readonly key: string;
  readonly head: string;
  /** What sorting, filtering and export go by. */
  readonly value: (row: Row) => string | number | null;
  /** What is shown, when it differs from the value. */
  readonly number?: boolean;
  readonly id?: boolean;
  /** The name of the column in an exported file, with its unit. */
  readonly exported?: string;
}

export interface Sorting {
  readonly key: string;
  readonly down: boolean;
}

/** The words of rows, worked out once: when asked for, or ahead of that while the page is idle. */
export interface KeptWords<Row> {
  readonly of: (row: Row) => string;
  /** Begin to work ahead; the answer ends that. */
  readonly prepare: () => () => void;
}

const AT_ONCE = 300;

/** The words that a filter looks in: what each column shows, in small letters. */
export function wordsKept<Row>(
  rows: readonly Row[],
  columns: readonly (Column<Row> & { readonly words?: (row: Row) => string })[],
): KeptWords<Row> {
  const kept = new Map<Row, string>();
  const of = (row: Row): string => {
    const old = kept.get(row);
    if (old !== undefined) return old;
    const words = columns
      .map((column) => column.words?.(row) ?? String(column.value(row) ?? ""))
      .join("\n")
      .toLowerCase();
    kept.set(row, words);
    return words;
  };
  const prepare = (): (() => void) => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const from = (start: number): void => {
      for (const row of rows.slice(start, start + AT_ONCE)) of(row);
      if (start + AT_ONCE < rows.length) timer = setTimeout(() => from(start + AT_ONCE), 30);
    };
    if (rows.length > AT_ONCE) timer = setTimeout(() => from(0), 500);
    return () => clearTimeout(timer);
  };
  return { of, prepare };
}

/** The rows in which every word of `text` stands somewhere. */
export function filtered<Row>(
  rows: readonly Row[],
  text: string,
  wordsOf: (row: Row) => string,
): readonly Row[] {
  const words = text
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  if (words.length === 0) return rows;
  return rows.filter((row) => {
    const all = wordsOf(row);
    return words.every((word) => all.includes(word));
  });
}

/** Rows as comma-separated text; cells that a spreadsheet would take for a formula are defused. */
export function asCsv<Row>(rows: readonly Row[], columns: readonly Column<Row>[]): string {
  const head = columns.map((column) => csvCell(column.exported ?? column.head));
  const body = rows.map((row) => columns.map((column) => csvCell(column.value(row))));
  return `${[head, ...body].map((cells) => cells.join(",")).join("\r\n")}\r\n`;
}

function csvCell(value: string | number | null): string {
  if (value === null) return "";
  if (typeof value === "number") return String(value);
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
