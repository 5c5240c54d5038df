import { describe, expect, it } from "vitest";
import { firstForm, freeName, hostsOf, withoutFootprint, withWing } from "../src/draft/form";
import { begin, redo, step, undo } from "../src/draft/history";
import {
  areaOf,
  counterClockwise,
  facing,
  isRectangle,
  letterOf,
  rectangle,
  sidesOf,
  snapped,
  withCornerIn,
  withoutCorner,
  withSideLength,
  withSideMoved,
} from "../src/draft/outline";

const HOUSE = rectangle(0, 0, 8, 6);

describe("an outline", () => {
  it("snaps to the grid", () => {
    expect(snapped([1.26, -0.24], 0.5)).toEqual([1.5, -0]);
  });

  it("stays square when a side is given a length: what lies beyond moves along", () => {
    const longer = withSideLength(HOUSE, 0, 10);
    expect(sidesOf(longer).map((side) => side.length)).toEqual([10, 6, 10, 6]);
    expect(isRectangle(longer)).toBe(true);
  });

  it("moves a side square to itself only", () => {
    expect(withSideMoved(HOUSE, 1, [1, 5])).toEqual(rectangle(0, 0, 9, 6));
  });

  it("gains and loses corners, down to three", () => {
    expect(withCornerIn(HOUSE, 0, 1)).toHaveLength(5);
    const three = withoutCorner(HOUSE, 0);
    expect(withoutCorner(three, 0)).toBe(three);
  });

  it("is turned counter-clockwise with its first corner kept", () => {
    const back = counterClockwise([
      [0, 0],
      [0, 6],
      [8, 6],
      [8, 0],
    ]);
    expect(areaOf(back)).toBe(48);
    expect(back[0]).toEqual([0, 0]);
    expect(sidesOf(back).map(facing)).toEqual(["south", "east", "north", "west"]);
  });

  it("letters its walls A to Z, then AA", () => {
    expect([0, 25, 26, 52].map(letterOf)).toEqual(["A", "Z", "AA", "BA"]);
  });
});

describe("a form", () => {
  it("begins as a house whose walls are A to D", () => {
    expect(hostsOf(firstForm("us", "House")).map((wall) => wall.name)).toEqual([
      "A",
      "B",
      "C",
      "D",
    ]);
  });

  it("takes a wing with a roof of its own, and gives it back", () => {
    const form = firstForm("metric", "House");
    const wing = withWing(form, false);
    expect(wing.footprints).toHaveLength(2);
    expect(wing.roof?.at(-1)?.over).toBe(wing.footprints[1]?.id);
    expect(withoutFootprint(wing, 1)).toEqual(form);
    expect(freeName(wing, "W")).toBe("W1");
  });
});

describe("the steps", () => {
  it("go back and forward, and join while they are about the same", () => {
    const moved = step(step(step(begin(0), 1, "corner"), 2, "corner"), 3, "side");
    expect(undo(moved).now).toBe(2);
    expect(undo(undo(moved)).now).toBe(0);
    expect(redo(undo(moved)).now).toBe(3);
    expect(step(undo(moved), 9).future).toEqual([]);
  });
});
