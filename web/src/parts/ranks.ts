/** The places of rows in the order of a column: of a long list worked out on a thread of its own. */

import type { Column } from "./rows";

const compare = new Intl.Collator(undefined, { numeric: true, sensitivity: "base" }).compare;

/** The place of each word among all of them; equal words share one, each is compared once. */
export function placesOf(words: readonly (string | null)[]): Float64Array {
  const all = [...new Set(words.filter((word) => word !== null))].sort(compare);
  const place = new Map(all.map((word, k) => [word, k]));
  return Float64Array.from(words, (word) => (word === null ? Number.NaN : (place.get(word) ?? 0)));
}

/** Lists shorter than this are put in order at once. */
const LONG = 1500;

/** Keeps the order of rows by each column they were sorted by. */
export class Ranks<Row> {
  private readonly known = new Map<string, Float64Array>();
  private readonly index: ReadonlyMap<Row, number>;
  private worker: Worker | null = null;

  constructor(private readonly rows: readonly Row[]) {
    this.index = new Map(rows.map((row, k) => [row, k]));
  }

  /** The ranks of all rows by a column, NaN for none; null while they are worked out for `then`. */
  by(column: Column<Row>, then: () => void): Float64Array | null {
    const old = this.known.get(column.key);
    if (old !== undefined) return old;
    const values = this.rows.map((row) => column.value(row));
    if (!values.some((value) => typeof value === "string")) {
      const ranks = Float64Array.from(values, (value) => (value === null ? Number.NaN : +value));
      this.known.set(column.key, ranks);
      return ranks;
    }
    const words = values.map((value) => (value === null ? null : String(value)));
    if (words.length < LONG || typeof Worker !== "function") {
      const ranks = placesOf(words);
      this.known.set(column.key, ranks);
      return ranks;
    }
    this.away(column.key, words, then);
    return null;
  }

  /** Rows in the order of their ranks; those without a value come last either way. */
  sorted(rows: readonly Row[], ranks: Float64Array, down: boolean): readonly Row[] {
    const keys = Float64Array.from(rows, (row) => ranks[this.index.get(row) ?? 0] ?? Number.NaN);
    const order = Uint32Array.from(rows, (_, k) => k);
    order.sort((a, b) => {
      const [x, y] = [keys[a] as number, keys[b] as number];
      if (Number.isNaN(x) || Number.isNaN(y))
        return Number(Number.isNaN(x)) - Number(Number.isNaN(y)) || a - b;
      return (down ? y - x : x - y) || a - b;
    });
    return Array.from(order, (k) => rows[k] as Row);
  }

  close(): void {
    this.worker?.terminate();
  }

  private away(key: string, words: readonly (string | null)[], then: () => void): void {
    this.worker ??= new Worker(new URL("./ranks_worker.ts", import.meta.url), { type: "module" });
    this.worker.addEventListener(
      "message",
      (event: MessageEvent<Float64Array>) => {
        this.known.set(key, event.data);
        then();
      },
      { once: true },
    );
    this.worker.postMessage(words);
  }
}
