import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

/** A fold whose inside is made when it is first opened: a page of a hundred folds would make them all for nobody. */
export function Folded({
  summary,
  children,
}: {
  summary: ComponentChildren;
  children: () => ComponentChildren;
}) {
  const [seen, setSeen] = useState(false);
  return (
    <details onToggle={(event) => event.currentTarget.open && setSeen(true)}>
      <summary>{summary}</summary>
      {seen && children()}
    </details>
  );
}
