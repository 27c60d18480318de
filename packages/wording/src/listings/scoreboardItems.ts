import type { Constant } from '@dwellset/core';
import { unitWords } from '../values/units.ts';
import { valueWords } from '../values/value.ts';
import { counted, factTitle, listed, lowerFirst, type Words } from '../words.ts';

/** One part of an answer, held against the rules. */
export interface JudgedShown {
  readonly part: 'conclusion' | 'advice' | 'check' | 'chosen' | 'choice' | 'converts';
  readonly verdict: 'agreed' | 'disagreed' | 'not-decidable';
  readonly expected: unknown;
  readonly received: unknown;
  readonly by: readonly {
    readonly set: string;
    readonly rule: string;
    readonly title: string;
    readonly evidence: readonly string[];
  }[];
  readonly undecided?: 'open' | 'no-rule' | 'no-choice' | 'outside' | 'not-run';
  readonly asks: readonly string[];
}

/** A local choice that stands on another position than the key. */
export interface ConflictShown {
  readonly choice: string;
  readonly title: string;
  readonly here: Constant;
  readonly there: Constant;
  readonly unit?: string;
  readonly evidence: readonly string[];
}

const MOST_ASKED = 3;
const MOST_RULES = 2;
const MOST_ROWS = 3;

/** The first of a longer list, and how many more there are. */
function firstOf(items: readonly string[], most: number): string {
  const shown = items.slice(0, most);
  return items.length > most ? `${shown.join(', ')} and ${items.length - most} more` : listed(shown, 'and');
}

function rulesWords(by: JudgedShown['by']): string {
  const named = by.slice(0, MOST_RULES).map(({ set, rule, evidence }) => {
    const rows = evidence.length === 0 ? '' : `, resting on ${firstOf(evidence, MOST_ROWS)}`;
    return `\`${set}/${rule}\`${rows}`;
  });
  const more = by.length > MOST_RULES ? [`and ${counted(by.length - MOST_RULES, 'more rule')}`] : [];
  return [...named, ...more].join('; ');
}

const WHY: Readonly<Record<NonNullable<JudgedShown['undecided']>, string>> = {
  open: 'left open',
  'no-rule': 'no rule rests on this yet',
  'no-choice': 'no local choice rests on this yet',
  outside: 'the rules do not speak about such a patient',
  'not-run': 'the rules of that set cannot be built',
};

/** What the rules came to in one part of an answer, and by which of them. */
export function judgedWords(judged: JudgedShown, words: Words): string {
  const { undecided, by, asks } = judged;
  const rules = by.length === 0 ? '' : ` (${rulesWords(by)})`;
  if (undecided !== undefined) {
    const facts = firstOf(
      asks.map((fact) => factTitle(fact, words)),
      MOST_ASKED,
    );
    return `${WHY[undecided]}${rules}${asks.length === 0 ? '' : `; it would ask for ${facts}`}`;
  }
  return `${comesTo(judged, words)}${rules}`;
}

function comesTo({ part, received, by }: JudgedShown, words: Words): string {
  switch (part) {
    case 'conclusion': {
      const titles = [...words.conclusions].find(([id]) => id.endsWith(`/${String(received)}`));
      return `concludes "${titles?.[1] ?? String(received)}"`;
    }
    case 'advice':
      return received === true
        ? 'gives advice'
        : `gives no advice${by.length === 0 ? '' : ', though it could'}`;
    case 'check':
      return received === 'met' ? 'the check is met' : 'the check is not met';
    case 'chosen':
      return received === true ? 'the item is ruled out' : 'the item is not ruled out';
    case 'choice':
      return `chooses ${chosenWords(received, words)}`;
    case 'converts':
      return received === null ? 'does not convert' : `gives ${String(received)}`;
  }
}

function chosenWords(received: unknown, words: Words): string {
  const choices = received as readonly { readonly choice: string; readonly value: Constant }[];
  return listed(
    choices.map(({ choice, value }) => {
      const parameter = words.parameters.get(choice);
      return `${valueWords(value, parameter, words)} for ${lowerFirst(parameter?.title ?? choice)}`;
    }),
    'and',
  );
}

/** Where the sources disagree: what is chosen here, and the position that would agree. */
export function conflictWords(
  { choice, title, here, there, unit, evidence }: ConflictShown,
  words: Words,
): string {
  const parameter = words.parameters.get(choice) ?? (unit === undefined ? {} : { unit });
  const rows = firstOf(evidence, MOST_ROWS);
  if (Array.isArray(here) && Array.isArray(there)) {
    const [more, less] = [minus(there, here), minus(here, there)];
    const change = [
      ...(more.length === 0 ? [] : [`with ${valueWords(more, parameter, words)}`]),
      ...(less.length === 0 ? [] : [`without ${valueWords(less, parameter, words, 'UTC', 'or')}`]),
    ].join(' and ');
    return `they disagree on the local choice "${title}"; ${change} (${rows}) it would agree`;
  }
  const value = (one: Constant) => valueWords(one, parameter, words) || `${String(one)} ${unitWords(unit)}`;
  return `they disagree on the local choice "${title}": here ${value(here)}; with ${value(there)} (${rows}) it would agree`;
}

const minus = (a: readonly string[], b: readonly string[]): string[] => a.filter((one) => !b.includes(one));
