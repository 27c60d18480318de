import type { Constant, Position } from '@dwellset/core';
import { sourceWords, statusWords, upperFirst } from '@dwellset/wording';
import { evidenceOf, sourceOf } from '../../words.ts';

interface PositionsProps {
  readonly positions: readonly Position[];
  readonly said: (value: Constant) => string;
  readonly inForce: unknown;
  readonly onTake: (value: Constant) => void;
}

/** What sources stand for, each with its sources; one click takes it. */
export function Positions({ positions, said, inForce, onTake }: PositionsProps) {
  return (
    <ul class="plain positions">
      {positions.map(({ value, evidence, note }, index) => (
        <li key={index}>
          <strong>{upperFirst(said(value))}</strong>{' '}
          {JSON.stringify(value) === JSON.stringify(inForce) ? (
            <span class="id">in force</span>
          ) : (
            <button type="button" onClick={() => onTake(value)}>
              Take this
            </button>
          )}
          {note !== undefined && <p class="aside">{note}</p>}
          <ul class="plain">
            {evidence.map((id) => (
              <EvidenceLine key={id} id={id} />
            ))}
          </ul>
        </li>
      ))}
    </ul>
  );
}

/** One statement with its sources and how it is known. */
export function EvidenceLine({ id }: { id: string }) {
  const found = evidenceOf(id);
  if (!found) return <li class="aside">{id}: stated nowhere</li>;
  return (
    <li>
      {found.statement} <span class="id">{id}</span>
      {found.from.map((item, index) => {
        const source = sourceOf(item.source);
        return (
          <div class="aside" key={index}>
            {source
              ? sourceWords({
                  ...item,
                  body: source.body,
                  title: source.title,
                  ...(source.year !== undefined && { year: source.year }),
                  ...(source.edition !== undefined && { edition: source.edition }),
                })
              : statusWords(item.status)}
          </div>
        );
      })}
    </li>
  );
}
