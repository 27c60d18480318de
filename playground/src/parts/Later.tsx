import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/** A part of a page that is made after the part above it is, so that a long page holds the browser up for none of it. */
export function Later({ children }: { children: () => ComponentChildren }) {
  const [due, setDue] = useState(false);
  useEffect(() => {
    // A timer and no message: several messages are taken in at one go.
    const timer = setTimeout(() => setDue(true));
    return () => clearTimeout(timer);
  }, []);
  return due ? children() : null;
}
