import { buildRelease, withDocument } from '@dwellset/authoring';
import type { Release } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { AMENDMENT, OURS } from '../../playground/src/bench/ours.ts';
import { openedOf } from '../../playground/src/bench/published.ts';
import { type Draft, EMPTY } from '../../playground/src/draft/draft.ts';
import { fromAmendment } from '../../playground/src/draft/fromAmendment.ts';
import { missingIn } from '../../playground/src/draft/missing.ts';
import { edited } from '../../playground/src/draft/ruleText.ts';
import { toAmendment } from '../../playground/src/draft/toAmendment.ts';
import { library } from '../policies/shipped.ts';

const { sets } = openedOf(library);
const built = (draft: Draft, trying = false) => {
  const amendment = toAmendment(draft, sets, { trying });
  const amended = amendment ? withDocument(library, AMENDMENT, JSON.stringify(amendment)) : library;
  return (set: string) => buildRelease(amended, set, amendment ? { hospital: OURS } : {});
};

/** What can change an outcome or a text; who approved it when is told elsewhere. */
const content = ({ amendment: _, reads: __, ...release }: Release) => release;

describe.each([...library.hospitals.keys()])('the amendment of %s', (hospital) => {
  const document = library.hospitals.get(hospital)!.amendment!.value;
  const draft = fromAmendment(document, sets);

  test('comes out of the bench with the same rules, choices and texts as it went in', () => {
    const again = built(draft);
    for (const { id } of sets) {
      const [before, after] = [buildRelease(library, id, { hospital }), again(id)];
      expect(after.refused).toBeUndefined();
      expect(content(after.release!)).toEqual(content(before.release!));
    }
  });

  test('lacks nothing that it has to state', () => {
    expect(missingIn(draft, sets)).toEqual([]);
  });
});

const removal = sets.find(({ id }) => id === 'removal')!;
const withRule = (rule: string, text: string): Draft => ({
  ...EMPTY,
  rules: { [`removal/${rule}`]: { text, reason: '' } },
});
const changeOf = (draft: Draft) => toAmendment(draft, sets, { trying: true })?.amends[0]?.changes[0];

test('other words alone are a rewording; another condition replaces the rule', () => {
  const text = removal.texts['review-due']!;
  expect(changeOf(withRule('review-due', edited(text, ['because'], 'Another reason.')))).toMatchObject({
    reword: { rule: 'review-due', because: 'Another reason.' },
  });
  expect(
    changeOf(withRule('review-due', edited(text, ['when'], { condition: 'not-reviewed' }))),
  ).toHaveProperty('replace');
});

test('a locked rule takes lines and a higher urgency, and nothing else of an edit', () => {
  const text = removal.texts['dysreflexia-blocked']!;
  const changed = edited(edited(text, ['title'], 'Another title'), ['because'], 'Another reason.');
  expect(changeOf(withRule('dysreflexia-blocked', changed))).toBeUndefined();
});

test('a text that cannot be read changes no rule', () => {
  expect(changeOf(withRule('review-due', '{ "id": '))).toBeUndefined();
});

test('a choice can be tried before its reason and its policy are stated, and not be handed on', () => {
  const draft: Draft = {
    ...EMPTY,
    choices: { 'review.interval': { value: 12, reason: '', evidence: [] } },
  };
  const tried = built(draft, true)('removal').release!;
  expect(tried.parameters.find(({ id }) => id === 'review.interval')?.value).toBe(12);
  expect(built(draft)('removal').release).toBeUndefined();
  expect(missingIn(draft, sets).map(({ what }) => what)).toContain('the local policy behind review.interval');
});

test('changes made on another published text are refused, not carried over', () => {
  const draft: Draft = {
    ...EMPTY,
    base: { removal: { version: removal.release.version, digest: '0'.repeat(64) } },
    choices: { 'review.interval': { value: 24.5, reason: '', evidence: [] } },
  };
  expect(built(draft, true)('removal').refused?.map(({ code }) => code)).toContain('other-digest');
});
