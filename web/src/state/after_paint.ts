/** Work that may wait until the hand has been answered. */

import { useEffect, useState } from "preact/hooks";

/** The value of before, until the picture that answers the hand has been drawn; then the new one. */
export function useAfterPaint<T>(value: T): T {
  const [held, setHeld] = useState<{ readonly value: T }>({ value });
  useEffect(() => {
    if (held.value === value) return;
    let later: ReturnType<typeof setTimeout> | undefined;
    const frame = requestAnimationFrame(() => {
      later = setTimeout(() => setHeld({ value }));
    });
    return () => {
      cancelAnimationFrame(frame);
      clearTimeout(later);
    };
  }, [value]);
  return held.value;
}
