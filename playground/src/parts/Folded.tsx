import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

/** A fold whose inside is made when it is first opened: a page of a hundred folds would make them all for nobody. */
export function Folded({
  summary,
  open = false,
  kind,
  children,
}: {
  summary: ComponentChildren;
  open?: boolean;
  /** Class of the fold. */
  kind?: string;
  children: () => ComponentChildren;
}) {
  const [seen, setSeen] = useState(open);
  return (
    <details class={kind} open={open} onToggle={(event) => event.currentTarget.open && setSeen(true)}>
      <summary>{summary}</summary>
      {(seen || open) && children()}
    </details>
  );
}
