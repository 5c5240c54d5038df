import { expect, it, vi } from "vitest";
import { Pace } from "../src/engine/pace";

it("draws coarser while pictures come late, and finely again after a rest", () => {
  vi.useFakeTimers();
  const rest = vi.fn();
  const pace = new Pace(rest);
  expect(pace.next(1000)).toBe(1);
  expect(pace.next(1016)).toBe(1);
  expect(pace.next(1200)).toBeLessThan(1);
  vi.advanceTimersByTime(3000);
  expect(rest).toHaveBeenCalledOnce();
  expect(pace.next(5000)).toBe(1);
  vi.useRealTimers();
});
