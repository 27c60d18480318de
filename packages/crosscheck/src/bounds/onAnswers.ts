import type { Answer, BoundsOperator, EngineValue } from './boundsOperator.ts';

/** Codes answered one by one: a code that neither list names may be either. */
export function onAnswers(
  operator: BoundsOperator,
  yes: readonly string[],
  no: readonly string[],
  value: EngineValue,
): Answer | undefined {
  const isYes = (code: string) => yes.includes(code);
  const isNo = (code: string) => no.includes(code);
  if (typeof value === 'string') {
    if (operator === 'contains') return { certainly: isYes(value), possibly: !isNo(value) };
    if (operator === 'doesNotContain') return { certainly: isNo(value), possibly: !isYes(value) };
    return undefined;
  }
  if (!Array.isArray(value)) return undefined;
  const codes: readonly string[] = value;
  if (operator === 'containsAny') return { certainly: codes.some(isYes), possibly: !codes.every(isNo) };
  if (operator === 'containsNone') return { certainly: codes.every(isNo), possibly: !codes.some(isYes) };
  return undefined;
}
