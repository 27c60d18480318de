import type { z } from 'zod';
import {
  code,
  date,
  digestText,
  duration,
  evidenceId,
  factId,
  group,
  instant,
  kebab,
  version,
} from '../documents/terms.ts';
import type { Code } from './codes.ts';
import type { Cursor } from './cursor.ts';
import type { Findings } from './findings.ts';
import { didYouMean } from './nearest.ts';

type Issue = z.core.$ZodIssue;

const patternOf = (schema: z.ZodType): string => {
  const issue = schema.safeParse(' ').error?.issues[0];
  return issue?.code === 'invalid_format' ? (issue.pattern ?? '') : '';
};

/** What a text that breaks the pattern of a term is called. */
const TERMS: ReadonlyMap<string, readonly [Code, string]> = new Map([
  [patternOf(factId), ['id-grammar', '`group.kebab-name`']],
  [patternOf(kebab), ['id-grammar', '`kebab-name`']],
  [patternOf(code), ['id-grammar', '`kebab-name`']],
  [patternOf(evidenceId), ['id-grammar', 'letters and digits, joined by hyphens or points']],
  [patternOf(group), ['id-grammar', 'one lower-case word']],
  [patternOf(date), ['bad-date', 'a day as `YYYY-MM-DD`']],
  [patternOf(instant), ['bad-date', 'an instant with its offset, as `YYYY-MM-DDThh:mm+hh:mm`']],
  [patternOf(duration), ['stale-duration', 'days, hours and minutes, as `P1D` or `PT2H30M`']],
  [patternOf(version), ['wrong-shape', 'three numbers, as `1.0.0`']],
  [patternOf(digestText), ['wrong-shape', '64 hexadecimal digits']],
]);

/** The term whose pattern a text or a key breaks, if it is one: its code, and what it should be. */
export function termOf(issue: Issue): readonly [Code, string] | undefined {
  const inner = issue.code === 'invalid_key' ? issue.issues[0] : issue;
  return inner?.code === 'invalid_format' ? TERMS.get(inner.pattern ?? '') : undefined;
}

export function reportShape(issue: Issue, at: Cursor, name: string, find: Findings): void {
  const received = shown(at.value);
  const here = name === '' ? 'the document' : `\`${name}\``;
  const term = termOf(issue);
  if (term !== undefined) {
    const [code, expected] = term;
    find.report(code, at, { message: `${received} is not ${expected}`, expected, received });
    return;
  }
  const expected = expectedOf(issue);
  const choices = issue.code === 'invalid_value' ? issue.values.map(String) : [];
  const hint = at.text === undefined ? {} : didYouMean(at.text, choices);
  find.report('wrong-shape', at, {
    message: /^\d+$/.test(name) ? `${received} is not ${expected}` : `${here} must be ${expected}`,
    expected,
    received,
    ...hint,
  });
}

const WORDS: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: '`true` or `false`',
  array: 'a list',
  tuple: 'a list of fixed length',
  object: 'an object',
  record: 'an object',
  null: '`null`',
};

function expectedOf(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return WORDS[issue.expected] ?? issue.expected;
    case 'invalid_value':
      return issue.values.length === 1
        ? `\`${String(issue.values[0])}\``
        : `one of ${issue.values.map((value) => `\`${String(value)}\``).join(', ')}`;
    case 'too_small':
      return issue.origin === 'string' || issue.origin === 'array'
        ? 'not empty'
        : `${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}`;
    case 'too_big':
      return `${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum}`;
    case 'invalid_union': {
      const words = issue.errors.flatMap((branch) => branch.slice(0, 1).map(expectedOf));
      return [...new Set(words)].join(' or ');
    }
    default:
      return 'of another shape';
  }
}

/** A value as a message quotes it. */
export function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing';
  const bare = typeof value === 'string' ? value : text;
  return `\`${bare.length > 60 ? `${bare.slice(0, 57)}…` : bare}\``;
}
