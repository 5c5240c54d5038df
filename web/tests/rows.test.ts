import { describe, expect, it } from "vitest";
import { asCsv, type Column, filtered, sorted, wordsKept } from "../src/parts/rows";

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
    const ids = (key: string, down: boolean): string[] =>
      sorted(ROWS, COLUMNS, { key, down }).map((row) => row.id);
    expect(ids("id", false).slice(-2)).toEqual(["A.2", "A.10"]);
    expect(ids("length", false)).toEqual(["=B", "A.10", "A.2"]);
    expect(ids("length", true)).toEqual(["A.10", "=B", "A.2"]);
  });

  it("keep their order when nothing is asked", () => {
    expect(sorted(ROWS, COLUMNS, null)).toBe(ROWS);
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
