import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import inks from "../src/engine/inks.json";
import { ASKED, rowsOf } from "../src/engine/looks";
import en from "../src/words/en.json";
import es from "../src/words/es.json";

const SPANISH: Record<string, string> = es;
const ENGLISH: Record<string, string> = en;

const filesIn = (folder: string): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesIn(path) : [path];
  });
const sources = filesIn("src").filter(
  (path) => /\.tsx?$/.test(path) && !path.endsWith("schema.ts"),
);

describe("the catalogs", () => {
  it("hold the same keys in both languages", () => {
    expect(Object.keys(es).sort()).toEqual(Object.keys(en).sort());
  });

  it("fill the same places in both languages, and leave nothing empty", () => {
    const places = (text: string): string[] => (text.match(/\{\w+\}/g) ?? []).sort();
    for (const [key, text] of Object.entries(ENGLISH)) {
      expect(places(SPANISH[key] ?? ""), key).toEqual(places(text));
      expect(text.trim(), key).not.toBe("");
      expect(SPANISH[key]?.trim(), key).not.toBe("");
    }
  });

  it("name every row of every legend", () => {
    for (const asked of ASKED) {
      for (const { key } of rowsOf(asked))
        expect(ENGLISH[`${asked}.${key}`], `${asked}.${key}`).toBeDefined();
    }
    for (const kind of Object.keys(inks)) expect(ENGLISH[`kind.${kind}`]).toBeDefined();
  });
});

describe("the pages", () => {
  it("write no words of their own", () => {
    const found: string[] = [];
    for (const path of sources.filter((one) => one.endsWith(".tsx"))) {
      const file = ts.createSourceFile(
        path,
        readFileSync(path, "utf8"),
        ts.ScriptTarget.ES2022,
        true,
        ts.ScriptKind.TSX,
      );
      const visit = (node: ts.Node): void => {
        if (ts.isJsxText(node) && /\p{L}{2,}/u.test(node.text))
          found.push(`${path}: ${node.text.trim()}`);
        ts.forEachChild(node, visit);
      };
      visit(file);
    }
    expect(found.filter((one) => !ALLOWED.some((name) => one.endsWith(`: ${name}`)))).toEqual([]);
  });
});

/** Names that are the same in every language. */
const ALLOWED = ["Seamwright", "ft-in", "EN", "ES"];
