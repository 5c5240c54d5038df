/** How this person reads: units, language, motion. Kept in this browser. */

import { effect, signal } from "@preact/signals";
import type { System } from "../units/show";

export type Language = "en" | "es";

const kept = (key: string): string | null => {
  try {
    return localStorage.getItem(`seamwright.${key}`);
  } catch {
    return null;
  }
};

const keep = (key: string, value: string): void => {
  try {
    localStorage.setItem(`seamwright.${key}`, value);
  } catch {
    // A browser that keeps nothing still shows everything.
  }
};

const firstLanguage = (): Language => {
  const told = kept("language") ?? globalThis.navigator?.language ?? "en";
  return told.startsWith("es") ? "es" : "en";
};

export const units = signal<System>(kept("units") === "metric" ? "metric" : "us");
export const language = signal<Language>(firstLanguage());
/** Who works here: goes with what is signed, corrected or saved. */
export const person = signal(kept("person") ?? "");

export const still = (): boolean =>
  globalThis.matchMedia?.("(prefers-reduced-motion: reduce)").matches ?? false;

effect(() => keep("units", units.value));
effect(() => keep("language", language.value));
effect(() => keep("person", person.value));
