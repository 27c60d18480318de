import type { Release } from '@dwellset/core';
import { clean, wrap } from '../layout.ts';
import { choiceTitle, fieldWords } from './fieldWords.ts';
import type { ComparisonShown } from './shown.ts';
import type { SideNames } from './sideNames.ts';

type Item = ComparisonShown['items'][number];

export interface Sides {
  readonly before: Release | undefined;
  readonly after: Release | undefined;
  readonly names: SideNames;
}

/** An item by its title, where a release gives it one. */
function itemName({ kind, id }: Pick<Item, 'kind' | 'id'>, release: Release | undefined): string {
  if (kind === 'local choice') return choiceTitle(id, release);
  const [stock = '', option] = id.split('/');
  const titled =
    kind === 'rule'
      ? release?.rules.find((one) => one.id === id)?.title
      : kind === 'fact'
        ? release?.facts.find((one) => one.id === id)?.title
        : kind === 'table'
          ? release?.tables.find((one) => one.id === id)?.title
          : kind === 'stock'
            ? release?.stock[stock]?.find((one) => one.id === option)?.title
            : undefined;
  return titled === undefined ? `${kind} ${id}` : `${kind} "${titled}" (${id})`;
}

const STATES = { added: 'added', removed: 'gone', changed: '' } as const;

function stateWords(change: Item['change'], { before, after, inTime }: SideNames): string {
  return inTime ? STATES[change] : `only at ${change === 'added' ? after : before}`;
}

/** Why a hospital has it so, from its amendment. */
function reasonLines({ kind, id }: Item, { before, after, names }: Sides, width: number): string[] {
  const of = (release: Release | undefined, said: string): string[] =>
    (release?.amendment?.changes ?? [])
      .filter(({ item }) => item === id || (kind === 'table' && item.startsWith(`${id}/`)))
      .map(({ reason }) => `reason${said}: ${reason}`);
  const reasons = names.inTime
    ? [...of(before, ' before'), ...of(after, '')]
    : [...of(before, ` at ${names.before}`), ...of(after, ` at ${names.after}`)];
  return [...new Set(reasons)].flatMap((line) => wrap(clean(line), width, '     ', '       '));
}

/** What reads otherwise in one item: its name, then each part as it was and as it is, then why. */
export function itemLines(item: Item, sides: Sides, width: number): string[] {
  const { before, after, names } = sides;
  const name =
    itemName(item, after) === `${item.kind} ${item.id}` ? itemName(item, before) : itemName(item, after);
  if (item.change !== 'changed') {
    return [
      ...wrap(clean(`${name}: ${stateWords(item.change, names)}`), width, '  ', '     '),
      ...reasonLines(item, sides, width),
    ];
  }
  // That a rule is off stands in its local change, with the reason.
  const fields = item.fields.filter(({ field }) => field !== 'switched off');
  const lines = fields
    .map((field) => fieldWords(field, item, [before, after], names))
    .filter((words) => words !== '')
    .flatMap((words) => wrap(clean(words), width, '     ', '       '));
  // A replaced or switched-off rule carries its reason in itself.
  const said = fields.some(({ field }) => field === 'local');
  return [
    ...wrap(clean(name), width, '  ', '     '),
    ...lines,
    ...(said ? [] : reasonLines(item, sides, width)),
  ];
}
