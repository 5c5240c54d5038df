/** Words from the catalogs. Every visible word passes here; a test holds both catalogs complete. */

import { effect, signal } from "@preact/signals";
import en from "../words/en.json";
import { language } from "./ways";

export type WordKey = keyof typeof en;
type Words = Record<WordKey, string>;

const words = signal<Words>(en);

effect(() => {
  const wanted = language.value;
  if (typeof document !== "undefined") document.documentElement.lang = wanted;
  if (wanted === "en") {
    words.value = en;
    return;
  }
  void import("../words/es.json").then((es) => {
    if (language.peek() === "es") words.value = es.default;
  });
});

/** The words under a key, with `{name}` replaced. */
export function say(key: WordKey, filled: Readonly<Record<string, string | number>> = {}): string {
  return words.value[key].replace(
    /\{(\w+)\}/g,
    (whole, name: string) => `${filled[name] ?? whole}`,
  );
}

/** The words for a term of the trade (`kind.ridge`), or the term itself where no catalog has it. */
export function term(group: string, name: string | null | undefined): string {
  if (name === null || name === undefined || name === "") return "–";
  const found = (words.value as Record<string, string>)[`${group}.${name}`];
  if (found === undefined && name.includes("+")) {
    return name
      .split("+")
      .map((part) => term(group, part))
      .join(" + ");
  }
  return found ?? name.replaceAll("_", " ");
}

/** `one` for 1 and `many` for any other number. */
export function count(one: WordKey, many: WordKey, n: number): string {
  return say(n === 1 ? one : many, { n });
}
