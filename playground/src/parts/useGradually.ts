import { useEffect, useRef, useState } from 'preact/hooks';

/** Cells drawn anew before the browser is let go: a screen of them all at once would hold it up. */
const AT_ONCE = 100;

/**
 * How many of the lines in view may be drawn now. At first, and after a jump to others, none; then a few more with
 * every frame. Where most are drawn already, as in scrolling, all.
 */
export function useGradually(indexes: readonly number[], cellsOfLine: number): number {
  const [, redraw] = useState(0);
  const drawn = useRef<ReadonlySet<number>>(new Set());
  /** Lines that may be drawn of those that a jump brought into view; none while nothing grows. */
  const allowed = useRef<number | undefined>(undefined);
  const frame = useRef<number | undefined>(undefined);
  const step = Math.max(1, Math.round(AT_ONCE / cellsOfLine));
  const news = indexes.filter((index) => !drawn.current.has(index)).length;
  const isNear = drawn.current.size > 0 && news <= 2 * step;
  const count = isNear ? indexes.length : Math.min(indexes.length, allowed.current ?? 0);
  useEffect(() => {
    drawn.current = new Set(indexes.slice(0, count));
    if (count === indexes.length) allowed.current = undefined;
    else {
      // A frame brings one step, however often it is drawn.
      frame.current ??= requestAnimationFrame(() => {
        frame.current = undefined;
        allowed.current = (allowed.current ?? 0) + step;
        redraw((times) => times + 1);
      });
    }
  });
  useEffect(
    () => () => {
      if (frame.current !== undefined) cancelAnimationFrame(frame.current);
    },
    [],
  );
  return count;
}
