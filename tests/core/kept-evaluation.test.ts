import { assess, type Case, compile, evaluate, explain } from '@dwellset/core';
import { expect, test } from 'vitest';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';
import { leaf, makeCase, makeRelease, makeRule } from '../reference/release.ts';

const copy = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/** Empties a case down to its last list, as a caller may who uses the object for the next patient. */
function wipe(value: unknown): void {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value)) {
    wipe(inner);
    if (!Array.isArray(value)) delete (value as Record<string, unknown>)[key];
  }
  if (Array.isArray(value)) value.length = 0;
}

test('an evaluation says the same after its case was wiped and others were evaluated', () => {
  const draw = random(20_261_126);
  for (let set = 0; set < 30; set += 1) {
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    const cases = Array.from({ length: 8 }, () => generateCase(draw, generated));
    const expected = cases.map((patient) => assess(plan, patient, { reasons: 'all' }));
    const given = cases.map(copy);
    const evaluations = given.map((patient) => evaluate(plan, patient));
    given.forEach(wipe);
    const found = evaluations.map((evaluation) => explain(evaluation, { reasons: 'all' }));
    expect(JSON.stringify(found)).toBe(JSON.stringify(expected));
  }
});

test('options are judged alike all at once and one by one', () => {
  const draw = random(20_261_127);
  let looked = 0;
  for (let set = 0; set < 120; set += 1) {
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    if (plan.board === undefined) continue;
    for (let index = 0; index < 8; index += 1) {
      const patient = generateCase(draw, generated);
      const [atOnce, alone] = [plan, { ...plan, board: undefined }].map((one) =>
        plan.sets.flatMap(({ release, stock }) =>
          Object.keys(stock).flatMap((kind) =>
            evaluate(one, patient)
              .options(release.id, kind)
              .map(({ id, truths }) => [id, [...truths]] as const),
          ),
        ),
      );
      looked += atOnce!.length;
      expect(atOnce).toEqual(alone);
    }
  }
  expect(looked).toBeGreaterThan(500);
});

test('a list of codes is not taken for another whose codes run together', () => {
  const fact = { id: 'a.signs', title: 'Signs', question: 'Signs', type: 'codes', codes: 'signs' } as const;
  const release = makeRelease({
    facts: [fact],
    codes: { signs: { pain: 'pain', fever: 'fever' } },
    rules: [makeRule('sign', { when: leaf(fact.id, 'contains', 'fever') })],
  });
  const plan = compile([release], { allow: ['draft'] });
  const causeOf = (value: unknown): string | undefined =>
    evaluate(plan, makeCase({ [fact.id]: value } as Case['facts'])).readings.get(fact.id)?.cause;
  expect(causeOf({ yes: ['pain', 'fever'], no: [] })).toBeUndefined();
  expect(causeOf({ yes: ['pain,fever'], no: [] })).toBe('wrong-type');
  expect(causeOf({ yes: ['pain'], no: ['fever'] })).toBeUndefined();
  expect(causeOf({ yes: ['pain'] })).toBe('within-bounds');
});
