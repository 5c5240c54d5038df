/** Fingers, mouse and keys on the window of the model. */

export interface Handled {
  turn(dx: number, dy: number): void;
  move(dx: number, dy: number): void;
  near(factor: number, x: number, y: number): void;
  tap(x: number, y: number): void;
  hover(x: number, y: number): void;
  fit(): void;
}

const STEP = 24;
const SLOP = 6;

/** Listen on `element` and call `handled`; the answer stops it. */
export function listen(element: HTMLElement, handled: Handled): () => void {
  const fingers = new Map<number, { x: number; y: number }>();
  let travelled = 0;
  const spot = (event: MouseEvent): [number, number] => {
    const box = element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  const down = (event: PointerEvent): void => {
    element.setPointerCapture(event.pointerId);
    const [x, y] = spot(event);
    if (fingers.size === 0) travelled = 0;
    fingers.set(event.pointerId, { x, y });
  };
  const drag = (event: PointerEvent): void => {
    const [x, y] = spot(event);
    const old = fingers.get(event.pointerId);
    if (old === undefined) {
      if (event.pointerType === "mouse") handled.hover(x, y);
      return;
    }
    const [dx, dy] = [x - old.x, y - old.y];
    travelled += Math.hypot(dx, dy);
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    if (other !== undefined) pinch(handled, old, { x, y }, other);
    else if (event.shiftKey || (event.buttons & 6) !== 0) handled.move(dx, dy);
    else handled.turn(dx, dy);
    fingers.set(event.pointerId, { x, y });
  };
  const up = (event: PointerEvent): void => {
    const alone = fingers.size === 1 && fingers.delete(event.pointerId);
    fingers.delete(event.pointerId);
    if (alone && event.type === "pointerup" && travelled < SLOP && event.button === 0) {
      handled.tap(...spot(event));
    }
  };
  const wheel = (event: WheelEvent): void => {
    event.preventDefault();
    const [x, y] = spot(event);
    handled.near(Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.04 : 0.0015)), x, y);
  };
  const key = (event: KeyboardEvent): void => {
    if (pressed(event, handled, element)) event.preventDefault();
  };
  const menu = (event: Event): void => event.preventDefault();
  element.addEventListener("pointerdown", down);
  element.addEventListener("pointermove", drag);
  element.addEventListener("pointerup", up);
  element.addEventListener("pointercancel", up);
  element.addEventListener("wheel", wheel, { passive: false });
  element.addEventListener("keydown", key);
  element.addEventListener("contextmenu", menu);
  return () => {
    element.removeEventListener("pointerdown", down);
    element.removeEventListener("pointermove", drag);
    element.removeEventListener("pointerup", up);
    element.removeEventListener("pointercancel", up);
    element.removeEventListener("wheel", wheel);
    element.removeEventListener("keydown", key);
    element.removeEventListener("contextmenu", menu);
  };
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

function pinch(handled: Handled, old: Spot, now: Spot, other: Spot): void {
  const before = Math.hypot(old.x - other.x, old.y - other.y);
  const after = Math.hypot(now.x - other.x, now.y - other.y);
  handled.move((now.x - old.x) / 2, (now.y - old.y) / 2);
  if (before > 1) handled.near(after / before, (now.x + other.x) / 2, (now.y + other.y) / 2);
}

function pressed(event: KeyboardEvent, handled: Handled, element: HTMLElement): boolean {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const [x, y] = [element.clientWidth / 2, element.clientHeight / 2];
  const go = event.shiftKey
    ? (dx: number, dy: number): void => handled.move(-dx, -dy)
    : (dx: number, dy: number): void => handled.turn(dx, dy);
  const acts: Record<string, () => void> = {
    ArrowLeft: () => go(-STEP, 0),
    ArrowRight: () => go(STEP, 0),
    ArrowUp: () => go(0, -STEP),
    ArrowDown: () => go(0, STEP),
    "+": () => handled.near(1.25, x, y),
    "=": () => handled.near(1.25, x, y),
    "-": () => handled.near(0.8, x, y),
    "0": () => handled.fit(),
  };
  const act = acts[event.key];
  act?.();
  return act !== undefined;
}
