import type { Fact } from '@dwellset/core';
import { upperFirst } from '@dwellset/wording';
import { opened } from '../../bench/client.ts';
import { words } from '../../words.ts';
import type { Editing } from './editing.ts';

/** Facts by group, in dictionary order; what only options have is offered only where options are read. */
export function FactPicker({
  value,
  editing,
  onPick,
}: {
  value: string;
  editing: Editing;
  onPick: (id: string) => void;
}) {
  const groups = opened.value?.dictionary.groups ?? [];
  const facts = [...words.value.facts.values()].filter(
    ({ id, type }) => type !== 'list' && (editing.ofOptions || !id.startsWith('option.')),
  );
  const known = facts.some(({ id }) => id === value);
  const titled = (fact: Fact) => (
    <option key={fact.id} value={fact.id}>
      {upperFirst(fact.title)}
    </option>
  );
  const listed = new Set(groups.map(({ id }) => id));
  const others = facts.filter(({ id }) => !listed.has(id.split('.')[0]!));
  return (
    <select
      aria-label="What is read"
      class="fact"
      disabled={editing.disabled}
      value={value}
      onInput={(event) => onPick(event.currentTarget.value)}
    >
      {!known && <option value={value}>{value}</option>}
      {groups.map(({ id: group, title }) => (
        <optgroup key={group} label={title}>
          {facts.filter(({ id }) => id.startsWith(`${group}.`)).map(titled)}
        </optgroup>
      ))}
      {others.length > 0 && <optgroup label="Others">{others.map(titled)}</optgroup>}
    </select>
  );
}
