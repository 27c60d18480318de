import type { Rule } from '@dwellset/core';
import { applyEdits, type JSONPath, modify, type ParseError, parse } from 'jsonc-parser';

const FORMAT = { formattingOptions: { insertSpaces: true, tabSize: 2, eol: '\n' } };

export interface ReadRule {
  /** Without `$schema`; absent where the text is no JSON object. */
  readonly rule?: Rule;
  readonly broken: boolean;
}

/** Longer texts are answered by the check, not parsed for the outline. */
const LONGEST = 1024 * 1024;

/** Reads the text of a rule as far as it goes; whether it is a sound rule is for the check to say. */
export function readRule(text: string): ReadRule {
  if (text.length > LONGEST) return { broken: true };
  const errors: ParseError[] = [];
  const value: unknown = parse(text, errors, { disallowComments: true, allowTrailingComma: false });
  if (errors.length > 0 || typeof value !== 'object' || value === null || Array.isArray(value)) {
    return { broken: true };
  }
  const { $schema: _, ...rule } = value as { $schema?: unknown };
  return { rule: rule as unknown as Rule, broken: false };
}

/** Puts one value into a rule's text; everything else stays as its author wrote it. */
export const edited = (text: string, path: JSONPath, value: unknown): string =>
  applyEdits(text, modify(text, path, value, FORMAT));

export const textOf = (rule: object): string =>
  `${JSON.stringify({ $schema: 'urn:dwellset:rule:1', ...rule }, null, 2)}\n`;
