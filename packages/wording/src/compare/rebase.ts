import type { Release } from '@dwellset/core';
import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, clean, usableWidth, wrap } from '../layout.ts';
import { counted, listed, type Words, wordsOf } from '../words.ts';
import { choiceTitle, choiceValue, fieldWords } from './fieldWords.ts';
import type { SideNames } from './sideNames.ts';

/** What became of a local amendment on a new base, as the authoring package makes it. */
export interface RebasedShown {
  readonly organisation: string;
  readonly sets: readonly {
    readonly set: string;
    readonly title: string;
    readonly before?: { readonly version: string; readonly digest: string };
    readonly after?: { readonly version: string; readonly digest: string };
    readonly pinned: boolean;
    readonly changes: readonly RebasedChangeShown[];
    readonly newRules: readonly { readonly id: string; readonly title: string; readonly locked: boolean }[];
  }[];
}

interface RebasedChangeShown {
  readonly kind: string;
  readonly item: string;
  readonly reason: string;
  readonly local?: unknown;
  readonly standing: 'conflict' | 'look' | 'superfluous' | 'unchanged';
  readonly because: readonly string[];
  readonly base: readonly {
    readonly field: string;
    readonly from?: unknown;
    readonly to?: unknown;
    readonly wording: boolean;
  }[];
  readonly reads: readonly string[];
  readonly refused: readonly { readonly message: string }[];
}

type Set = RebasedShown['sets'][number];

const HEADINGS = [
  ['conflict', 'To be decided'],
  ['look', 'To be looked at: unchanged itself, but what it reads is not'],
  ['superfluous', 'No longer needed'],
  ['unchanged', 'Applies as it stands'],
] as const;

const DONE: Readonly<Record<string, string>> = {
  switchOff: 'switched off here',
  replace: 'replaced here',
  reword: 'worded otherwise here',
  add: 'added here',
  addText: 'text added here',
  raise: 'raised here',
  stock: 'own stock list here',
};

/** The item by its title, and what the hospital does to it. */
function nameWords(change: RebasedChangeShown, { set }: Set, { words, was, now = was }: Known): string {
  const { kind, item, local } = change;
  if (kind === 'set') return `${choiceTitle(item, now)}: here ${choiceValue(item, local, now)}`;
  const title = kind === 'stock' ? undefined : (words.rules.get(`${set}/${item}`) ?? titleOf(local));
  const name = title === undefined ? item : `"${title}" (${item})`;
  const more = kind === 'raise' ? ` to ${String(local)}` : '';
  return `${name}: ${DONE[kind] ?? kind}${more}`;
}

const titleOf = (local: unknown): string | undefined => {
  const title = (local as { title?: unknown } | null | undefined)?.title;
  return typeof title === 'string' ? title : undefined;
};

/** What the committee is asked. */
function question({ kind, because, local, item }: RebasedChangeShown, now: Release | undefined): string {
  if (because.includes('gone')) {
    return kind === 'set'
      ? 'The published rules have no such choice any more. Is the change dropped, or is there a choice that took its place?'
      : 'It no longer stands among the published rules. Is the change dropped, or does the hospital keep a rule of its own?';
  }
  if (because.includes('now-exists')) {
    return 'A published rule now has this id. Is the local rule dropped, renamed, or made a replacement of the published one?';
  }
  if (because.includes('refused')) return 'The published rules refuse this change. What takes its place?';
  if (because.includes('reads-changed')) return 'Does the reason still hold?';
  if (because.includes('same-now')) return 'The published rules say this by themselves now. Is it taken out?';
  if (because.includes('nothing-left')) return 'The published rule is gone. Is this taken out?';
  switch (kind) {
    case 'set':
      return `Does the hospital keep ${choiceValue(item, local, now)}, or take the published value?`;
    case 'switchOff':
      return 'Does the changed rule stay switched off?';
    case 'stock':
      return 'Does the own list take up what changed in the published one?';
    case 'replace':
      return 'Does the replacement stay, take up what changed, or give way to the published rule?';
    default:
      return 'Do these words still fit the changed rule?';
  }
}

function changeLines(change: RebasedChangeShown, set: Set, at: string, known: Known): string[] {
  const { was, now, width } = known;
  const [id = ''] = change.item.split('/');
  const kind = change.kind !== 'set' ? 'rule' : id === change.item ? 'local choice' : 'table';
  return [
    ...wrap(clean(`${at}${nameWords(change, set, known)} – ${change.reason}`), width, '  ', '     '),
    ...change.base.flatMap((field) =>
      wrap(
        clean(`published: ${fieldWords(field, { kind, id }, [was, now], IN_TIME)}`),
        width,
        '     ',
        '       ',
      ),
    ),
    ...change.refused.flatMap(({ message }) => wrap(clean(`refused: ${message}`), width, '     ', '       ')),
    ...(change.reads.length === 0
      ? []
      : wrap(clean(`reads what changed: ${listed([...change.reads], 'and')}`), width, '     ', '       ')),
    ...(change.standing === 'unchanged' ? [] : wrap(question(change, now ?? was), width, '     ')),
  ];
}

const IN_TIME: SideNames = { before: 'before', after: 'after', inTime: true };

interface Known {
  readonly words: Words;
  readonly was: Release | undefined;
  readonly now: Release | undefined;
  readonly width: number;
}

const versionWords = (side: Set['before']): string =>
  side === undefined ? 'no such set' : `${side.version} ${side.digest.slice(0, 12)}`;

function setBlocks(set: Set, options: RebaseTextOptions, width: number, next: () => number): string[][] {
  const before = options.before.find(({ id }) => id === set.set);
  const after = options.after.find(({ id }) => id === set.set);
  const known: Known = {
    words: wordsOf([...options.after, ...options.before]),
    was: before,
    now: after,
    width,
  };
  const added = set.newRules.map(({ id, title, locked }) => `"${title}" (${id})${locked ? ', locked' : ''}`);
  return [
    [
      clean(`${set.title} (${set.set})`),
      ...wrap(`made for: ${versionWords(set.before)}`, width, '  '),
      ...wrap(`new base: ${versionWords(set.after)}`, width, '  '),
      ...(set.pinned
        ? []
        : wrap(
            'The amendment names another old base than the one at hand: what it was made for is not known here.',
            width,
            '  ',
          )),
    ],
    ...HEADINGS.flatMap(([standing, heading]) => {
      const own = set.changes.filter((change) => change.standing === standing);
      if (own.length === 0) return [];
      const numbered = standing !== 'unchanged';
      return [
        [heading, ...own.flatMap((change) => changeLines(change, set, numbered ? `${next()}. ` : '', known))],
      ];
    }),
    ...(added.length === 0
      ? []
      : [
          [
            'New in the base, and not yet looked at here',
            ...added.flatMap((line) => wrap(clean(line), width, '  ', '     ')),
          ],
        ]),
  ];
}

export interface RebaseTextOptions {
  readonly width?: number;
  /** Published releases of either base. */
  readonly before: readonly Release[];
  readonly after: readonly Release[];
}

/** A local amendment on a new base, as questions to whoever answers for it. */
export function rebaseText(shown: RebasedShown, options: RebaseTextOptions): string {
  const width = usableWidth(options.width);
  const count = (standing: string): number =>
    shown.sets.flatMap(({ changes }) => changes).filter((change) => change.standing === standing).length;
  let asked = 0;
  const next = () => ++asked;
  const summary = `${counted(count('conflict'), 'change')} to be decided, ${count('look')} to be looked at, ${count('superfluous')} no longer needed, ${count('unchanged')} as before.`;
  return asText(
    blocks([
      wrap(clean(`The amendment of ${shown.organisation} on a new base`), width),
      wrap(summary, width),
      ...shown.sets.flatMap((set) => setBlocks(set, options, width, next)),
      wrap(
        'Nothing was changed. The amendment is pinned to the new base once every question is answered.',
        width,
      ),
      cautionLines(cautions, width),
    ]),
  );
}
