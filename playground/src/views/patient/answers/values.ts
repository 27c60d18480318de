import type { AbsentReason, CaseValue, Fact, StatedValue } from '@dwellset/core';

/** What a fact of the dictionary and a field of a list have in common: how it is answered. */
type Asked = Pick<Fact, 'type' | 'unit' | 'step' | 'limits' | 'codes' | 'monthMeans'>;

export interface AnswerProps {
  readonly asked: Asked;
  /** What is asked, in words. */
  readonly label: string;
  /** The element in which these words stand. */
  readonly labelledBy: string;
  readonly value: CaseValue | undefined;
  /** IANA time zone in which times are read and typed. */
  readonly zone: string;
  /** `undefined`: nobody supplied it. */
  readonly onValue: (value: CaseValue | undefined) => void;
}

/** Said of what no answer was given to. */
export const NOBODY = 'not supplied';
/** Stands for `null` where only a text can stand: somebody looked and nothing is recorded. */
export const NULL = 'null';
export const ABSENT: readonly AbsentReason[] = [
  'asked-unknown',
  'asked-declined',
  'not-applicable',
  'not-performed',
];

export const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
export const isStated = (value: unknown): value is StatedValue => isObject(value) && 'value' in value;
export const absentOf = (value: unknown): string | undefined =>
  value === null ? NULL : isObject(value) && 'absent' in value ? String(value.absent) : undefined;
export const bareOf = (value: unknown): unknown => (isStated(value) ? value.value : value);

export const readAbsent = (value: string): CaseValue | undefined =>
  value === '' ? undefined : value === NULL ? null : { absent: value as AbsentReason };

/** A value put in the place of another keeps the time and origin that were stated. */
export const restated = (before: unknown, value: StatedValue['value'], unit?: string): CaseValue =>
  isStated(before) || (unit !== undefined && unit !== '1')
    ? { ...(isStated(before) ? before : {}), value, ...(unit !== undefined && { unit }) }
    : value;

export const COMPARATORS = [
  ['<', 'less than'],
  ['<=', 'at most'],
  ['>', 'more than'],
  ['>=', 'at least'],
] as const;
