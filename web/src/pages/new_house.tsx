import type { JSX } from "preact";
import { Sheet } from "../parts/sheet";

export function NewHouse(): JSX.Element {
  return <Sheet title="new">{null}</Sheet>;
}
