/** A page: its title for the browser and the reader's ear, and its body. */

import type { ComponentChildren, JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";

interface Props {
  readonly title: string;
  readonly house?: string | undefined;
  readonly children: ComponentChildren;
  readonly bare?: boolean;
}

export function Sheet({ title, house, children, bare }: Props): JSX.Element {
  const main = useRef<HTMLElement>(null);
  useEffect(() => {
    document.title = [title, house, "Seamwright"].filter((part) => part).join(" · ");
  }, [title, house]);
  useEffect(() => {
    if (
      document.activeElement === document.body ||
      document.activeElement?.closest("nav") !== null
    ) {
      main.current?.focus({ preventScroll: true });
    }
  }, []);
  return (
    <main id="main" ref={main} tabIndex={-1} class={bare ? "bare" : "sheet"}>
      <h1 class={bare ? "hidden-words" : ""}>{title}</h1>
      {children}
    </main>
  );
}
