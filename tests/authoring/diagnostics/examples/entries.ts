import type { Example } from '../provoke.ts';

const CHARTED = 'output/steady.vignettes.json';
const value = (from: string, to: string): Pick<Example, 'path' | 'from' | 'to'> => ({
  path: CHARTED,
  from,
  to,
});

/** Mistakes in the entries that a case gives. */
export const entries: readonly Example[] = [
  {
    code: 'unknown-key',
    mistake: 'a misspelt field of an entry',
    ...value('"source": "latex"', '«"sorce"»: "latex"'),
    hint: 'did you mean `source`',
  },
  {
    code: 'code-not-permitted',
    mistake: 'a misspelt code in an entry',
    ...value('"source": "latex"', '"source": «"latx"»'),
    hint: 'did you mean `latex`',
  },
  {
    code: 'wrong-unit',
    mistake: 'an entry in another unit',
    ...value('"unit": "mL"', '"unit": «"L"»'),
    hint: 'write `{"value":20000,"unit":"mL"}`',
  },
  {
    code: 'impossible-value',
    mistake: 'an entry that cannot be',
    ...value('"value": 20', '"value": «60000»'),
  },
  {
    code: 'bad-date',
    mistake: 'an entry whose start has no offset',
    ...value('"from": "2026-11-02T06:00:00+00:00"', '"from": «"2026-11-02T06:00"»'),
  },
  {
    code: 'wrong-shape',
    mistake: 'an entry that is a number',
    ...value('{ "use-by": null }', '«60»'),
  },
  {
    code: 'wrong-shape',
    mistake: 'a list that is maybe complete',
    ...value('"complete": false', '"complete": «"no"»'),
  },
  {
    code: 'unknown-key',
    mistake: 'a misspelt key of a list',
    ...value('"complete": false', '«"complet"»: false'),
    hint: 'did you mean `complete`',
  },
  {
    code: 'wrong-shape',
    mistake: 'one number for a list',
    ...value('{ "items": [{ "use-by": "2027-01" }, { "use-by": null }], "complete": false }', '«4»'),
  },
];
