/** Work that may wait until the hand has been answered. */

import { useEffect, useState } from "preact/hooks";

/** Do something once the picture that answers the hand has been drawn; the answer calls it off. */
export function afterPaint(work: () => void): () => void {
  let later: ReturnType<typeof setTimeout> | undefined;
  const frame = requestAnimationFrame(() => {
    later = setTimeout(work);
  });
  return () => {
    cancelAnimationFrame(frame);
    clearTimeout(later);
  };
}

/** The value of before, until the picture that answers the hand has been drawn; then the new one. */
export function useAfterPaint<T>(value: T): T {
  const [held, setHeld] = useState<{ readonly value: T }>({ value });
  useEffect(() => {
    if (held.value === value) return;
    return afterPaint(() => setHeld({ value }));
  }, [value]);
  return held.value;
}
