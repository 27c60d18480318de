import { describe, expect, test } from 'vitest';
import { CODES } from '../../../packages/authoring/src/check/codes.ts';
import { examples } from './examples.ts';
import { type Example, provoke } from './provoke.ts';

const provoked = new Map<Example, ReturnType<typeof provoke>>();
const once = (example: Example): ReturnType<typeof provoke> => {
  const known = provoked.get(example) ?? provoke(example);
  provoked.set(example, known);
  return known;
};

describe('one mistake gives one diagnostic, where it was made', () => {
  test.each(examples.map((example) => [`${example.code}: ${example.mistake}`, example] as const))(
    '%s',
    (_, example) => {
      const { found, expected } = provoke(example);
      expect(
        found.map(({ code, path, range, hint }) => ({ code, path, range, ...(example.hint && { hint }) })),
      ).toEqual([{ code: example.code, ...expected, ...(example.hint && { hint: example.hint }) }]);
      expect(found[0]!.severity).toBe(CODES[example.code].severity);
    },
  );

  test('every code has an example', () => {
    const shown = new Set(examples.map(({ code }) => code));
    expect(Object.keys(CODES).filter((code) => !shown.has(code as keyof typeof CODES))).toEqual([]);
  });

  test('messages are one sentence in lower case without a full stop', () => {
    for (const example of examples) {
      for (const { message, hint } of once(example).found) {
        for (const sentence of [message, ...(hint === undefined ? [] : [hint])]) {
          expect(sentence).toMatch(/^[^A-Z]/);
          expect(sentence).not.toMatch(/\.$|\n|undefined|\[object/);
        }
      }
    }
  });
});
