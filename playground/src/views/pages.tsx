import type { ComponentChildren } from 'preact';
import { opened } from '../bench/client.ts';
import { type Route, setInView } from '../route.ts';
import { ChoicesView } from './choices/ChoicesView.tsx';
import { LedgerView } from './ledger/LedgerView.tsx';

/** The page that an address stands for. */
export function pageOf({ parts }: Route): ComponentChildren {
  const [kind, set = '', page] = parts;
  if (kind === undefined) return <LedgerView set={setInView.value} />;
  if (kind === 'set' && opened.value?.sets.some(({ id }) => id === set)) {
    if (page === 'choices') return <ChoicesView key={set} set={set} />;
    if (page === undefined) return <LedgerView key={set} set={set} />;
  }
  return (
    <article>
      <h1>No such page</h1>
      <p>
        The address names nothing in this bench. <a href="#/">Back to the ledger</a>
      </p>
    </article>
  );
}
