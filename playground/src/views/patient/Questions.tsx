import type { CaseValue, Fact } from '@dwellset/core';
import { useComputed } from '@preact/signals';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { opened } from '../../bench/client.ts';
import { Later } from '../../parts/Later.tsx';
import { releaseOf } from '../../words.ts';
import { FactField } from './FactField.tsx';
import { patient, setFact, wanted } from './state.ts';

/** Sets with those whose conclusions they read, directly or through another. */
function withRead(sets: readonly string[]): ReadonlySet<string> {
  const found = new Set(sets);
  for (const set of found) for (const { id } of releaseOf(set)?.reads ?? []) found.add(id);
  return found;
}

/** Fields that are made in one frame: their closed lists are long, and a browser lays out all of them. */
const AT_ONCE = 6;

const slices = (own: readonly Fact[]): readonly (readonly Fact[])[] =>
  Array.from({ length: Math.ceil(own.length / AT_ONCE) }, (_, at) =>
    own.slice(at * AT_ONCE, (at + 1) * AT_ONCE),
  );

/** The questions that the chosen sets read, by group of the dictionary; answered groups stand open. */
export function Questions({ sets }: { sets: readonly string[] }) {
  const groups = opened.value?.dictionary.groups ?? [];
  const read = new Map(
    [...withRead(sets)]
      .flatMap((set) => releaseOf(set)?.facts ?? [])
      .filter(({ id, from }) => !from && !id.startsWith('option.'))
      .map((fact) => [fact.id, fact]),
  );
  const written = new Map(opened.value?.dictionary.facts.map((fact) => [fact.id, fact]));
  return (
    <div class="groups">
      {groups.map(({ id: group, title }) => {
        // A release sorts its keys; the fields of a list are asked in the order in which they were written.
        const own = [...read.values()]
          .filter(({ id }) => id.startsWith(`${group}.`))
          .map((fact) => (fact.type === 'list' ? (written.get(fact.id) ?? fact) : fact));
        return own.length === 0 ? null : <Group key={group} title={title} own={own} />;
      })}
    </div>
  );
}

function Group({ title, own }: { title: string; own: readonly Fact[] }) {
  const { facts, timeZone } = patient.value;
  const answered = own.filter(({ id }) => facts[id] !== undefined).length;
  const isWanted = useComputed(() => own.some(({ id }) => id === wanted.value)).value;
  const [open, setOpen] = useState(answered > 0);
  // Fields that nobody looks at are made for nobody: a browser goes through every one of them by itself.
  const [seen, setSeen] = useState(open);
  // Taking the last answer back does not fold the questions away under the hand that did it.
  useEffect(() => {
    if (answered > 0 || isWanted) setOpen(true);
  }, [answered > 0, isWanted]);
  useEffect(() => {
    if (open) setSeen(true);
  }, [open]);
  return (
    <details open={open} onToggle={(event) => setOpen(event.currentTarget.open)} class="group">
      <summary>
        {title}{' '}
        <span class="id">
          {answered} of {own.length} answered
        </span>
      </summary>
      {seen &&
        slices(own).map((some) => (
          <Later key={some[0]!.id}>
            {() =>
              some.map((fact) => (
                <Question key={fact.id} fact={fact} value={facts[fact.id]} zone={timeZone} />
              ))
            }
          </Later>
        ))}
    </details>
  );
}

/** Asked anew only where its own answer changes. */
function Question({ fact, value, zone }: { fact: Fact; value: CaseValue | undefined; zone: string }) {
  const isWanted = useComputed(() => wanted.value === fact.id).value;
  useEffect(() => {
    if (!isWanted) return;
    wanted.value = undefined;
    const field = document.getElementById(`q-${fact.id}`)?.parentElement;
    field?.querySelector<HTMLElement>('input, select, textarea, summary')?.focus();
  }, [isWanted]);
  return useMemo(
    () => <FactField fact={fact} value={value} zone={zone} onValue={(one) => setFact(fact.id, one)} />,
    [fact, value, zone],
  );
}
