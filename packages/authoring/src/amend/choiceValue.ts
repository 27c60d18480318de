import type { CodeList } from '@dwellset/core';
import { type ChoiceValue, valueText } from './cautious.ts';

/** A parameter or one cell of a table, seen alike. */
export interface Choice {
  /** A parameter's id, or `table/row/column`. */
  readonly path: string;
  readonly type: 'boolean' | 'number' | 'code' | 'codes' | 'text';
  readonly value: ChoiceValue;
  readonly step?: number;
  readonly range?: readonly [number, number];
  /** The codes that a code or codes value may take. */
  readonly codes?: CodeList;
  /** A cell may be without an entry. */
  readonly mayBeNone: boolean;
}

export interface ValueProblem {
  readonly code: string;
  readonly message: string;
  readonly expected: string;
}

/** What keeps a value from being one that this choice may take. */
export function valueProblem(choice: Choice, value: ChoiceValue): ValueProblem | undefined {
  const { path, type } = choice;
  if (value === null && choice.mayBeNone) return undefined;
  if (!hasType(type, value)) {
    const message = `\`${path}\` cannot be set to \`${valueText(value)}\``;
    return { code: 'wrong-type', message, expected: type === 'codes' ? 'a list of codes' : `a ${type}` };
  }
  if (typeof value === 'number') return numberProblem(choice, value);
  if (choice.codes === undefined || (type !== 'code' && type !== 'codes')) return undefined;
  const listed = Object.keys(choice.codes);
  const unlisted = [value].flat().filter((code) => !listed.includes(String(code)));
  if (unlisted.length === 0) return undefined;
  const message = `\`${unlisted.join(', ')}\` is not in the code list of \`${path}\``;
  return { code: 'unlisted-code', message, expected: listed.join(', ') };
}

function numberProblem({ path, range, step }: Choice, value: number): ValueProblem | undefined {
  if (range && (value < range[0] || value > range[1])) {
    const message = `\`${path}\` may not be \`${value}\``;
    return { code: 'out-of-range', message, expected: `${range[0]} to ${range[1]}` };
  }
  if (step !== undefined && Math.abs(Math.round(value / step) * step - value) > step * 1e-9) {
    const message = `\`${path}\` is stated in steps of ${step}, and \`${value}\` lies between two`;
    return { code: 'between-steps', message, expected: `a multiple of ${step}` };
  }
  return undefined;
}

function hasType(type: Choice['type'], value: ChoiceValue): boolean {
  switch (type) {
    case 'boolean':
      return typeof value === 'boolean';
    case 'number':
      return typeof value === 'number';
    case 'codes':
      return Array.isArray(value);
    case 'code':
    case 'text':
      return typeof value === 'string';
  }
}
