import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/** Parts of pages that are to be made, in the order in which they were met. */
const waiting = new Set<() => void>();
let isUnderWay = false;

/** A page in the background draws no frames, and is made all the same. */
const FRAME_AT_MOST_MS = 100;

/** After the next frame and not within it: what is made within a frame is one task with its layout. */
function afterFrame(act: () => void): void {
  const instead = setTimeout(() => {
    cancelAnimationFrame(frame);
    act();
  }, FRAME_AT_MOST_MS);
  const frame = requestAnimationFrame(() => {
    clearTimeout(instead);
    setTimeout(act);
  });
}

/** One part a frame, as what several make at one go the browser would lay out at one go too. */
function next(): void {
  isUnderWay = waiting.size > 0;
  if (!isUnderWay) return;
  afterFrame(() => {
    const [make] = waiting;
    if (make) {
      waiting.delete(make);
      make();
    }
    next();
  });
}

/** Who leaves before it is made costs those behind no frame. */
function queue(make: () => void): () => void {
  waiting.add(make);
  if (!isUnderWay) next();
  return () => {
    waiting.delete(make);
  };
}

/** A part of a page that is made after the part above it is, so that a long page holds the browser up for none of it. */
export function Later({ children }: { children: () => ComponentChildren }) {
  const [due, setDue] = useState(false);
  useEffect(() => queue(() => setDue(true)), []);
  return due ? children() : null;
}
