import { ABSENT_REASONS, convert } from '@dwellset/core';
import { checkConstant } from './constants.ts';
import { type Context, factNamed } from './context.ts';
import type { Cursor } from './cursor.ts';
import { isDay, isInstant } from './dates.ts';
import { type FactEntry, unitOf } from './entries.ts';
import { reportUnknownKey } from './entryKeys.ts';
import { checkEntries } from './listValues.ts';
import { checkInstant } from './moments.ts';
import { didYouMean } from './nearest.ts';
import { shown } from './shapes.ts';

const STATED_KEYS = ['value', 'unit', 'at', 'from', 'comparator', 'confirmed'] as const;
const COMPARATORS = ['<', '<=', '>', '>='];
const NONE: ReadonlySet<string> = new Set();

/** Facts of a case, by id; `excused` are those whose value is meant to be refused. */
export function checkFactValues(facts: Cursor, context: Context, excused = NONE): void {
  for (const [id, value] of facts.entries) {
    const fact = factNamed(value, context, 'key');
    if (fact !== undefined && !excused.has(id)) checkCaseValue(value, fact, context);
  }
}

/** What a case says about one fact: null, a bare value, a stated one, answers one by one, or why it is absent. */
export function checkCaseValue(at: Cursor, fact: FactEntry, context: Context): void {
  if (at.value === null || fact.type === undefined) return;
  if (at.has('absent')) checkAbsent(at, context);
  else if (fact.type === 'list')
    checkEntries(at, fact, context, (value, field) => checkCaseValue(value, field, context));
  else if (at.has('value')) checkStated(at, fact, context);
  else if (at.isObject && fact.type === 'codes') checkAnswers(at, fact, context);
  else checkBare(at, fact, undefined, context);
}

function checkAbsent(at: Cursor, context: Context): void {
  for (const key of at.keys) if (key !== 'absent') reportUnknownKey(at, key, ['absent'], context);
  const reason = at.at('absent');
  if (ABSENT_REASONS.some((known) => known === reason.value)) return;
  context.find.report('wrong-shape', reason, {
    message: `${shown(reason.value)} in ${context.owner} is no reason for a missing value`,
    expected: ABSENT_REASONS.join(', '),
    received: shown(reason.value),
    ...didYouMean(reason.text ?? '', ABSENT_REASONS),
  });
}

function checkStated(at: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  for (const key of at.keys)
    if (!STATED_KEYS.some((k) => k === key)) reportUnknownKey(at, key, STATED_KEYS, context);
  const value = at.at('value');
  if (value.isObject && fact.type === 'codes') checkAnswers(value, fact, context);
  else checkBare(value, fact, at, context);
  checkInstant(at.at('at'), context);
  for (const [key, expected] of [
    ['unit', 'string'],
    ['from', 'string'],
    ['at', 'string'],
    ['confirmed', 'boolean'],
  ] as const) {
    const part = at.at(key);
    if (!part.exists || typeof part.value === expected) continue;
    const message = `\`${key}\` of \`${fact.id}\` in ${owner} must be a ${expected === 'string' ? 'text' : expected}`;
    find.report('wrong-shape', part, { message, expected, received: shown(part.value) });
  }
  const comparator = at.at('comparator');
  if (!comparator.exists || (COMPARATORS.some((c) => c === comparator.value) && fact.type === 'number'))
    return;
  const message = `${shown(comparator.value)} is no comparator that \`${fact.id}\` in ${owner} can have`;
  find.report('wrong-shape', comparator, {
    message,
    expected: fact.type === 'number' ? COMPARATORS.join(' ') : 'none',
  });
}

function checkAnswers(at: Cursor, fact: FactEntry, context: Context): void {
  for (const key of at.keys)
    if (key !== 'yes' && key !== 'no') reportUnknownKey(at, key, ['yes', 'no'], context);
  for (const side of ['yes', 'no'] as const) {
    if (at.has(side)) checkConstant(at.at(side), fact, fact.id, context);
  }
}

/** `stated`: the object that gives the value its unit, where there is one. */
function checkBare(value: Cursor, fact: FactEntry, stated: Cursor | undefined, context: Context): void {
  const { type } = fact;
  if (type === 'number' && value.number !== undefined)
    checkNumber(value, value.number, fact, stated, context);
  else if (type === 'date-time' && value.text !== undefined && isDay(value.text)) return;
  else if (type === 'date' && isMonth(value.text) && fact.entry.at('monthMeans').exists) return;
  else if (type === 'date-time' && value.text !== undefined && !isInstant(value.text)) {
    context.find.report('bad-date', value, {
      message: `\`${value.text}\` for \`${fact.id}\` in ${context.owner} is no instant with its offset and no day`,
      expected: '`YYYY-MM-DDThh:mm+hh:mm`, or `YYYY-MM-DD` where the time is not known',
      received: value.text,
    });
  } else checkConstant(value, fact, fact.id, context);
}

const isMonth = (text: string | undefined): boolean => /^\d{4}-(0[1-9]|1[0-2])$/.test(text ?? '');

function checkNumber(
  value: Cursor,
  number: number,
  fact: FactEntry,
  stated: Cursor | undefined,
  { find, owner }: Context,
): void {
  const expected = unitOf(fact);
  const received = stated?.at('unit').text ?? '1';
  if (stated !== undefined && find.isMisspelt(stated, 'unit')) return;
  if (received !== expected) {
    const converted = convert(number, received, expected);
    const right = JSON.stringify({ value: converted ?? number, unit: expected });
    const guess = stated?.has('unit') ? converted !== undefined : true;
    const at = stated?.has('unit') ? stated.at('unit') : value;
    find.report('wrong-unit', at, {
      message: stated?.has('unit')
        ? `\`${fact.id}\` in ${owner} is in \`${received}\`, but the fact is in \`${expected}\``
        : `\`${fact.id}\` in ${owner} does not state its unit \`${expected}\``,
      expected,
      received,
      ...(guess && { hint: `write \`${right}\`` }),
    });
    return;
  }
  const { limits } = fact;
  if (!limits || (number >= limits[0] && number <= limits[1])) return;
  find.report('impossible-value', value, {
    message: `${number} for \`${fact.id}\` in ${owner} lies outside what is possible, ${limits[0]} to ${limits[1]}`,
    expected: `${limits[0]} to ${limits[1]}`,
    received: String(number),
  });
}
