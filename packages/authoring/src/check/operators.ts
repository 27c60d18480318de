const COMPARISONS = ['lessThan', 'lessThanInclusive', 'greaterThan', 'greaterThanInclusive'];
const RECORDED = ['recorded', 'notRecorded'];

/** Which operators fit which type. */
const BY_TYPE: Readonly<Record<string, readonly string[]>> = {
  boolean: ['equal', 'notEqual'],
  code: ['equal', 'notEqual', 'in', 'notIn'],
  codes: ['contains', 'doesNotContain', 'containsAny'],
  number: ['equal', 'notEqual', ...COMPARISONS],
  date: [...COMPARISONS, 'before', 'after'],
  'date-time': [...COMPARISONS, 'before', 'after'],
  text: [],
  list: [],
};

/** A parameter always has a value, so nothing asks whether it is recorded. */
export function operatorsFor(
  type: string | undefined,
  kind: 'fact' | 'parameter' | 'field',
): readonly string[] | undefined {
  const fitting = type === undefined ? undefined : BY_TYPE[type];
  return fitting && (kind !== 'parameter' ? [...fitting, ...RECORDED] : fitting);
}

/** Operators whose right side is a list of codes. */
export const takesList = (operator: string): boolean => ['in', 'notIn', 'containsAny'].includes(operator);
/** Operators without a right side. */
export const takesNothing = (operator: string): boolean => RECORDED.includes(operator);
