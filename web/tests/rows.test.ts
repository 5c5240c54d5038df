import { describe, expect, it } from "vitest";
import { placesOf, Ranks } from "../src/parts/ranks";
import { asCsv, type Column, filtered, wordsKept } from "../src/parts/rows";
import { widthsOf } from "../src/parts/table_rows";

interface Row {
  readonly id: string;
  readonly length: number | null;
}

const ROWS: readonly Row[] = [
  { id: "A.10", length: 2 },
  { id: "A.2", length: null },
  { id: "=B", length: 1 },
];
const COLUMNS: readonly Column<Row>[] = [
  { key: "id", head: "Joint", value: (row) => row.id },
  { key: "length", head: "Length", exported: "length_m", number: true, value: (row) => row.length },
];

describe("rows", () => {
  it("are sorted by number within names, and those without a value come last either way", () => {
    const ranks = new Ranks(ROWS);
    const ids = (column: Column<Row> | undefined, down: boolean): string[] => {
      const order = column && ranks.by(column, () => {});
      return order ? ranks.sorted(ROWS, order, down).map((row) => row.id) : [];
    };
    expect(ids(COLUMNS[0], false).slice(-2)).toEqual(["A.2", "A.10"]);
    expect(ids(COLUMNS[1], false)).toEqual(["=B", "A.10", "A.2"]);
    expect(ids(COLUMNS[1], true)).toEqual(["A.10", "=B", "A.2"]);
  });

  it("keep their order where they are equal, whichever way they are sorted", () => {
    const rows = ["a", "b", "a", "b"].map((id, length) => ({ id, length }));
    const ranks = new Ranks<Row>(rows);
    const order = placesOf(rows.map((row) => row.id));
    expect(ranks.sorted(rows, order, true).map((row) => row.length)).toEqual([1, 3, 0, 2]);
  });

  it("give every column room for its longest name", () => {
    const long = { id: "A.1-R12.34", length: 1 };
    const [id = 0, length = 0] = widthsOf([...ROWS, long], COLUMNS);
    expect(id).toBeGreaterThan(long.id.length);
    expect(length).toBeGreaterThan(8);
  });

  it("are found by words in any column", () => {
    const { of } = wordsKept(ROWS, COLUMNS);
    expect(filtered(ROWS, "a. 2", of).map((row) => row.id)).toEqual(["A.10", "A.2"]);
    expect(filtered(ROWS, "nothing", of)).toEqual([]);
  });

  it("work out the words of a row once", () => {
    let asked = 0;
    const counted = COLUMNS.map((column) => ({
      ...column,
      words: () => {
        asked += 1;
        return column.key;
      },
    }));
    const { of } = wordsKept(ROWS, counted);
    filtered(ROWS, "id", of);
    expect(filtered(ROWS, "length", of)).toEqual(ROWS);
    expect(asked).toBe(ROWS.length * COLUMNS.length);
  });

  it("are written out with units in the head, and no cell can become a formula", () => {
    expect(asCsv(ROWS, COLUMNS)).toBe("Joint,length_m\r\nA.10,2\r\nA.2,\r\n'=B,1\r\n");
  });
});
