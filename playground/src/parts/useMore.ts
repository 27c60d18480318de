import { useEffect, useState } from 'preact/hooks';

/** How many of so many parts of a long page may be drawn now: a few at first, a few more with every frame. */
export function useMore(count: number, step: number): number {
  const [drawn, setDrawn] = useState(step);
  useEffect(() => {
    if (drawn >= count) return;
    const frame = requestAnimationFrame(() => setDrawn(drawn + step));
    return () => cancelAnimationFrame(frame);
  });
  return drawn;
}
