import type { JSX } from "preact";
import type { HousePage } from "../desk";
import { Sheet } from "../parts/sheet";

export function Page({ house }: HousePage): JSX.Element {
  return (
    <Sheet title="sides" house={house.name}>
      {null}
    </Sheet>
  );
}
