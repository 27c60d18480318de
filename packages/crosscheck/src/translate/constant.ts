import type { CodeList, Fact, FactType, Operator } from '@dwellset/core';
import type { EngineValue } from '../bounds/boundsOperator.ts';

const ORDER: readonly Operator[] = ['lessThan', 'lessThanInclusive', 'greaterThan', 'greaterThanInclusive'];
const INSTANT: readonly Operator[] = [...ORDER, 'before', 'after'];

/** What each type of fact may be asked, besides `recorded` and `notRecorded`. */
const MEANINGFUL: Readonly<Record<FactType, readonly Operator[]>> = {
  boolean: ['equal', 'notEqual'],
  code: ['equal', 'notEqual', 'in', 'notIn'],
  codes: ['contains', 'doesNotContain', 'containsAny'],
  number: ['equal', 'notEqual', ...ORDER],
  date: INSTANT,
  'date-time': INSTANT,
  text: [],
  list: [],
};

const LISTED: readonly Operator[] = ['in', 'notIn', 'containsAny'];
const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;
const INSTANT_WITH_OFFSET = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/;
const MS_PER_DAY = 86_400_000;

/**
 * The right side of a leaf in the form the operators read, or the reason why there is none. The engine itself
 * checks neither: it takes `null` for a number and an unknown operator for a mistake of the run.
 */
export function engineValue(
  fact: Fact,
  codes: CodeList | undefined,
  operator: Operator,
  value: unknown,
): EngineValue | { refused: string } {
  if (operator === 'recorded' || operator === 'notRecorded') {
    return value === undefined ? true : { refused: `\`${operator}\` takes no value` };
  }
  if (!MEANINGFUL[fact.type].includes(operator)) {
    return { refused: `\`${operator}\` has no meaning for \`${fact.id}\`, which is of type ${fact.type}` };
  }
  const converted = LISTED.includes(operator) ? codeList(value) : single(fact.type, value);
  if (converted === undefined) {
    return { refused: `\`${fact.id}\` is compared with ${JSON.stringify(value) ?? 'nothing'}` };
  }
  const named = fact.type === 'code' || fact.type === 'codes' ? [converted].flat() : [];
  const strange = named.find((code) => codes && !Object.hasOwn(codes, String(code)));
  return strange === undefined ? converted : { refused: `\`${fact.id}\` has no code \`${strange}\`` };
}

export const isRefused = (value: EngineValue | { refused: string }): value is { refused: string } =>
  typeof value === 'object' && !Array.isArray(value);

function codeList(value: unknown): readonly string[] | undefined {
  return Array.isArray(value) && value.every((code) => typeof code === 'string') ? [...value] : undefined;
}

function single(type: FactType, value: unknown): boolean | number | string | undefined {
  switch (type) {
    case 'boolean':
      return typeof value === 'boolean' ? value : undefined;
    case 'number':
      return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
    case 'code':
    case 'codes':
      return typeof value === 'string' ? value : undefined;
    case 'date':
      return typeof value === 'string' ? dayNumber(value) : undefined;
    case 'date-time':
      return typeof value === 'string' && INSTANT_WITH_OFFSET.test(value)
        ? finite(Date.parse(value))
        : undefined;
    case 'text':
      return undefined;
  }
}

/** Days since 1970-01-01 in no zone: the form in which a date is read. */
function dayNumber(text: string): number | undefined {
  const parts = DAY.exec(text);
  if (!parts) return undefined;
  const ms = Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3]));
  // Date.UTC rolls 30 February over into March; such a constant is a mistake, not a day.
  return new Date(ms).toISOString().startsWith(text) ? ms / MS_PER_DAY : undefined;
}

const finite = (ms: number): number | undefined => (Number.isFinite(ms) ? ms : undefined);
