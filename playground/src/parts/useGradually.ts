import { useEffect, useRef, useState } from 'preact/hooks';

/** Cells drawn anew before the browser is let go: a screen of them all at once would hold it up. */
const AT_ONCE = 80;

/**
 * How many of the lines in view may be drawn now. At first, and after a jump to others, none; then a few more with
 * every frame. Where most are drawn already, as in scrolling, all.
 */
export function useGradually(indexes: readonly number[], cellsOfLine: number): number {
  const [, redraw] = useState(0);
  const drawn = useRef<ReadonlySet<number>>(new Set());
  /** Lines drawn of those that a jump brought into view. */
  const grown = useRef<number | undefined>(undefined);
  const step = Math.max(2, Math.floor(AT_ONCE / cellsOfLine));
  const news = indexes.filter((index) => !drawn.current.has(index)).length;
  const isNear = drawn.current.size > 0 && news <= 2 * step;
  const count = isNear
    ? indexes.length
    : grown.current === undefined
      ? 0
      : Math.min(indexes.length, grown.current + step);
  useEffect(() => {
    drawn.current = new Set(indexes.slice(0, count));
    grown.current = count < indexes.length ? count : undefined;
    if (grown.current === undefined) return;
    const frame = requestAnimationFrame(() => redraw((times) => times + 1));
    return () => cancelAnimationFrame(frame);
  });
  return count;
}
