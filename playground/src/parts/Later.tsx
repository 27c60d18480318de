import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { pause } from '../bench/pause.ts';

/** A part of a page that is made after the part above it is, so that a long page holds the browser up for none of it. */
export function Later({ children }: { children: () => ComponentChildren }) {
  const [due, setDue] = useState(false);
  useEffect(() => {
    void pause().then(() => setDue(true));
  }, []);
  return due ? children() : null;
}
