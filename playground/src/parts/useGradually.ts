import { useEffect, useRef, useState } from 'preact/hooks';

/** Lines drawn anew before the browser is let go: a screen of cells all at once would hold it up. */
const AT_ONCE = 6;

/**
 * How many of the lines in view may be drawn now. After a jump to others, a few at first and more with every frame;
 * where some of them are drawn already, all.
 */
export function useGradually(indexes: readonly number[]): number {
  const [, redraw] = useState(0);
  const drawn = useRef<ReadonlySet<number>>(new Set());
  const news = indexes.filter((index) => !drawn.current.has(index)).length;
  const isJump = news > AT_ONCE;
  // In a jump the lines drawn before are the first ones, up to where the last frame came.
  const known = indexes.findIndex((index) => !drawn.current.has(index));
  const count = isJump ? Math.min(indexes.length, Math.max(0, known) + AT_ONCE) : indexes.length;
  useEffect(() => {
    drawn.current = new Set(indexes.slice(0, count));
    if (count === indexes.length) return;
    const frame = requestAnimationFrame(() => redraw((times) => times + 1));
    return () => cancelAnimationFrame(frame);
  });
  return count;
}
