import { expect, test } from 'vitest';
import { base } from './base.ts';
import { checkFiles } from './provoke.ts';

test('finds nothing wrong with a clean library', () => {
  expect(checkFiles(base)).toEqual([]);
});
