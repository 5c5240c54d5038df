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

const compare = new Intl.Collator(undefined, { numeric: true, sensitivity: "base" }).compare;

/** The rows in order; equal rows keep their order, rows without a value come last either way. */
export function sorted<Row>(
  rows: readonly Row[],
  columns: readonly Column<Row>[],
  by: Sorting | null,
): readonly Row[] {
  const column = columns.find((one) => one.key === by?.key);
  if (column === undefined || by === null) return rows;
  const keyed = rows.map((row) => ({ row, value: column.value(row) }));
  keyed.sort((a, b) => {
    if (a.value === null || b.value === null)
      return Number(a.value === null) - Number(b.value === null);
    const order =
      typeof a.value === "number" && typeof b.value === "number"
        ? a.value - b.value
        : compare(String(a.value), String(b.value));
    return by.down ? -order : order;
  });
  return keyed.map((one) => one.row);
}

/** The rows in which every word of `text` stands somewhere. */
export function filtered<Row>(
  rows: readonly Row[],
  columns: readonly Column<Row>[],
  text: string,
  shown: (column: Column<Row>, row: Row) => string,
): readonly Row[] {
  const words = text
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  if (words.length === 0) return rows;
  return rows.filter((row) => {
    const all = columns.map((column) => shown(column, row).toLowerCase()).join("\n");
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
