/** Where in the desk we are, told by the address after `#`: /houses, /new, /h/ID/page/item?choices. */

import { computed, signal } from "@preact/signals";

export interface Route {
  readonly page: string;
  readonly house: string | null;
  readonly item: string | null;
  readonly choices: URLSearchParams;
}

/** Read an address after `#`. */
export function readRoute(hash: string): Route {
  const [path = "", query = ""] = hash.replace(/^#/, "").split("?");
  const parts = path
    .split("/")
    .filter((part) => part !== "")
    .map(decodeURIComponent);
  const choices = new URLSearchParams(query);
  if (parts[0] === "h" && parts[1] !== undefined) {
    return { house: parts[1], page: parts[2] ?? "model", item: parts[3] ?? null, choices };
  }
  return { house: null, page: parts[0] ?? "houses", item: parts[1] ?? null, choices };
}

/** The address of a page. */
export function addressOf(
  house: string | null,
  page: string,
  item?: string | null,
  choices?: Readonly<Record<string, string>>,
): string {
  const path = [...(house === null ? [] : ["h", house]), page, ...(item ? [item] : [])];
  const query = choices === undefined ? "" : new URLSearchParams(choices).toString();
  return `#/${path.map(encodeURIComponent).join("/")}${query === "" ? "" : `?${query}`}`;
}

const hash = signal(globalThis.location?.hash ?? "");
globalThis.addEventListener?.("hashchange", () => {
  hash.value = location.hash;
});

export const route = computed(() => readRoute(hash.value));

export function goTo(address: string): void {
  location.hash = address;
}

/** Change the address without a step back in the browser's history. */
export function replaceRoute(address: string): void {
  history.replaceState(null, "", address);
  hash.value = address;
}
