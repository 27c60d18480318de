import type { CautiousSide, Constant, Parameter, Release } from '@dwellset/core';
import { amountWords, numberWords } from '../values/units.ts';
import { valueWords } from '../values/value.ts';
import { lowerFirst, type Words } from '../words.ts';
import { usesOfRule, usesOfSet } from './uses.ts';

const CAUTIOUS: Readonly<Record<CautiousSide, string>> = {
  lower: 'the lower value',
  higher: 'the higher value',
  neither: 'neither side',
};

export const cautiousWords = (side: CautiousSide): string => CAUTIOUS[side];

export const rangeWords = (
  [low, high]: readonly [number, number],
  measured: Parameters<typeof amountWords>[1],
): string => `${numberWords(low, measured)} to ${amountWords(high, measured)}`;

export const sameValue = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/**
 * Parameters and tables that a locked rule of these releases rests on, each with the titles of those rules. A
 * hospital may move them to the cautious side only.
 */
export function lockedChoices(releases: readonly Release[]): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  for (const release of releases) {
    for (const rule of release.rules.filter(({ locked }) => locked)) {
      // Whom and when the set is asked about decides for its locked rules too.
      const uses = [usesOfRule(rule, release), usesOfSet(release, release)];
      const ids = uses.flatMap(({ parameters, tables }) => [...parameters, ...tables]);
      for (const id of new Set(ids)) found.set(id, [...(found.get(id) ?? []), rule.title]);
    }
  }
  return found;
}

/** Whether a value lies on the cautious side of the published one; codes are compared as lists. */
function staysCautious({ cautious, default: from }: Parameter, to: Constant): boolean {
  if (sameValue(from, to)) return true;
  if (cautious === 'neither') return false;
  const [low, high] = cautious === 'higher' ? [from, to] : [to, from];
  if (typeof low === 'number' && typeof high === 'number') return low <= high;
  if (typeof low === 'boolean' && typeof high === 'boolean') return !low || high;
  if (typeof low === 'object' && typeof high === 'object') return low.every((code) => high.includes(code));
  return false;
}

/** Whether a hospital may take a published position as it stands. */
export const mayTake = (parameter: Parameter, value: Constant, locked: readonly string[] = []): boolean =>
  locked.length === 0 || staysCautious(parameter, value);

function domainWords({ type, range, step, codes, unit }: Parameter, words: Words): string | undefined {
  if (type === 'boolean') return 'Yes or no.';
  if (range) {
    const within = rangeWords(range, {
      ...(unit !== undefined && { unit }),
      ...(step !== undefined && { step }),
    });
    return step === undefined ? `${within}.` : `${within}, in steps of ${numberWords(step)}.`;
  }
  const listed = Object.keys((codes === undefined ? undefined : words.codes[codes]) ?? {}).length;
  if (listed === 0) return undefined;
  return type === 'code' ? `One of ${listed} listed answers.` : `Any of ${listed} listed answers.`;
}

function lockedWords({ cautious }: Parameter, locked: readonly string[]): string {
  const rules =
    locked.length === 1 ? `the locked rule "${locked[0]}" rests` : `${locked.length} locked rules rest`;
  return cautious === 'neither'
    ? `It stays as published: ${rules} on it.`
    : `Only ${cautious} than published: ${rules} on it.`;
}

/** What a hospital may set, and what a value needs that no source stands for. */
export function allowedWords(parameter: Parameter, words: Words, locked: readonly string[] = []): string[] {
  const { cautious, positions } = parameter;
  const fixed = locked.length > 0 && cautious === 'neither';
  const domain = domainWords(parameter, words);
  return [
    ...(domain === undefined || fixed ? [] : [domain]),
    ...(locked.length === 0 ? [] : [lockedWords(parameter, locked)]),
    ...(fixed
      ? []
      : [
          positions.length === 0
            ? 'No source gives a figure: any other value needs a source in the local policy.'
            : 'A value that no source here stands for needs one in the local policy.',
        ]),
  ];
}

/** The value in force, and how it stands to the published one. */
export function inForce(parameter: Parameter, words: Words): string {
  const { value, default: published, title } = parameter;
  const said = (one: Constant) => shortValue(one, parameter, words);
  const here = sameValue(value, published)
    ? `${said(value)}, as published`
    : `${said(value)} here, ${said(published)} as published`;
  return `${lowerFirst(title)}: ${here}`;
}

/** More codes than this are counted where room is short. */
export const MOST_SAID = 4;

/** A value in a few words. */
export const shortValue = (value: Constant, parameter: Parameter, words: Words): string =>
  typeof value === 'object' && value.length > MOST_SAID
    ? `${value.length} listed answers`
    : valueWords(value, parameter, words, 'UTC', 'or');
