import { TIME_UNITS, unitsJoin } from '@dwellset/core';
import { type Context, factNamed, parameterNamed, sameList } from './context.ts';
import type { Cursor } from './cursor.ts';
import { described, type FactEntry, type Typed, unitOf } from './entries.ts';

const MOMENT: Typed = {
  type: 'date-time',
  unit: undefined,
  step: undefined,
  limits: undefined,
  codes: undefined,
};

/** The type of a fact or of the moment of the case; nothing where it is unknown, which is then reported. */
const typedNamed = (at: Cursor, context: Context): Typed | undefined =>
  at.text === 'asOf' ? MOMENT : factNamed(at, context);

/** Reports a result that is no number of one of these units. */
export function checkResult(
  fact: FactEntry,
  units: readonly string[],
  at: Cursor,
  { find, owner }: Context,
): void {
  if (fact.type === undefined) return;
  if (fact.type !== 'number') {
    const message = `${owner} is of type ${fact.type}, but this derivation gives a number`;
    find.report('derivation-wrong-type', at, {
      part: 'key',
      message,
      expected: 'number',
      received: fact.type,
    });
  } else if (!units.includes(unitOf(fact))) {
    const message = `${owner} is in \`${unitOf(fact)}\`, but this derivation gives ${units.map((u) => `\`${u}\``).join(' or ')}`;
    find.report('derivation-wrong-unit', at, {
      part: 'key',
      message,
      expected: units.join(', '),
      received: unitOf(fact),
    });
  }
}

const TIME_TYPES = {
  elapsed: ['date-time'],
  calendarDays: ['date-time', 'date'],
  localHour: ['date-time'],
} as const;

export function checkTime(
  kind: keyof typeof TIME_TYPES,
  body: Cursor,
  fact: FactEntry,
  context: Context,
): void {
  const allowed: readonly string[] = TIME_TYPES[kind];
  for (const [, operand] of body.entries) {
    const type = typedNamed(operand, context)?.type;
    if (type === undefined || allowed.includes(type)) continue;
    const expected = allowed.join(' or ');
    context.find.report('derivation-wrong-type', operand, {
      message: `\`${operand.text}\` in ${context.owner} is of type ${type}, but \`${kind}\` needs ${expected}`,
      expected,
      received: type,
      ...(kind === 'elapsed' && type === 'date' && { hint: 'use `calendarDays` for days' }),
    });
  }
  checkResult(fact, kind === 'elapsed' ? TIME_UNITS : kind === 'calendarDays' ? ['d'] : ['h'], body, context);
}

type Arithmetic = 'difference' | 'sum' | 'product' | 'ratio';

/** Unit of an operand; nothing where it is unknown or no number, which is then reported. */
function operandUnit(at: Cursor, kind: Arithmetic, context: Context): string | undefined {
  if (at.has('unit')) return at.at('unit').text;
  const name = at.isObject ? at.at('parameter') : at;
  const typed = at.isObject ? parameterNamed(name, context) : typedNamed(name, context);
  if (typed?.type === undefined) return undefined;
  if (typed.type === 'number') return unitOf(typed);
  const message = `\`${name.text}\` in ${context.owner} is of type ${typed.type}, but \`${kind}\` needs numbers`;
  const hint =
    typed.type === 'date-time' && kind === 'difference' ? { hint: 'use `elapsed` for instants' } : {};
  context.find.report('derivation-wrong-type', name, {
    message,
    expected: 'number',
    received: typed.type,
    ...hint,
  });
  return undefined;
}

export function checkArithmetic(kind: Arithmetic, body: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  const joins = kind === 'product' || kind === 'ratio';
  if (joins) for (const operand of body.items) checkNotNegative(operand, kind, context);
  const units = body.items.map((operand) => operandUnit(operand, kind, context));
  if (fact.type !== 'number') {
    checkResult(fact, [], body, context);
    return;
  }
  const unit = unitOf(fact);
  if (joins) {
    const known = units.filter((u) => u !== undefined);
    if (known.length < units.length || unitsJoin(unit, known, kind)) return;
    const received = known.join(kind === 'ratio' ? ' / ' : ' · ');
    const message = `${owner} is in \`${unit}\`, but the operands of \`${kind}\` give \`${received}\``;
    find.report('derivation-wrong-unit', body, { part: 'key', message, expected: unit, received });
    return;
  }
  body.items.forEach((operand, index) => {
    const received = units[index];
    if (received === undefined || received === unit) return;
    const message = `an operand of \`${kind}\` in ${owner} is in \`${received}\` and not in \`${unit}\``;
    find.report('derivation-wrong-unit', operand, { message, expected: unit, received });
  });
}

/** Bounds of products and ratios are only right for operands that cannot be negative. */
function checkNotNegative(operand: Cursor, kind: Arithmetic, context: Context): void {
  const { find, owner, facts } = context;
  const least = operand.isObject ? operand.at('value').number : facts.get(operand.text ?? '')?.limits?.[0];
  const unbounded =
    !operand.isObject && facts.get(operand.text ?? '')?.type === 'number' && least === undefined;
  if (!unbounded && (least === undefined || least >= 0)) return;
  const message = `an operand of \`${kind}\` in ${owner} may be negative, and \`${kind}\` takes none that is`;
  find.report('constant-outside-limits', operand, { message, expected: 'limits from 0' });
}

/** Operands of `lowest`, `highest` and `firstRecorded` must be of the fact's own type, unit and code list. */
export function checkChosen(body: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  for (const operand of body.items) {
    const typed = typedNamed(operand, context);
    if (typed?.type === undefined || fact.type === undefined) continue;
    const [expected, received] = [described(fact), described(typed)];
    if (typed.type !== fact.type || !sameList(typed.codes, fact.codes, context)) {
      const message = `\`${operand.text}\` in ${owner} is ${received} and not ${expected}`;
      find.report('derivation-wrong-type', operand, { message, expected, received });
    } else if (typed.type === 'number' && unitOf(typed) !== unitOf(fact)) {
      const message = `\`${operand.text}\` in ${owner} is in \`${unitOf(typed)}\` and not in \`${unitOf(fact)}\``;
      find.report('derivation-wrong-unit', operand, {
        message,
        expected: unitOf(fact),
        received: unitOf(typed),
      });
    }
  }
}
