import { assess, type CasesJudged, compile, isInCases, judgeCases, readCases } from '@dwellset/core';
import { complyCases, concludeCases, optionsOverCases } from '@dwellset/core/many';
import { expect, test } from 'vitest';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';

const SEED = Number(process.env.SEED ?? 20_261_125);
const PLANS = 250;
/** Not a multiple of 32, so that the last word is not full. */
const CASES = 77;

type Set = ReturnType<typeof assess>['ruleSets'][number];

/** What many cases at once say of one row, in the words of the assessment of that row alone. */
function differences(judged: CasesJudged, set: Set, row: number): string[] {
  const found: string[] = [];
  const compare = (what: string, one: unknown, many: unknown): void => {
    if (JSON.stringify(one) !== JSON.stringify(many)) {
      found.push(`${set.id} ${what}: one case ${JSON.stringify(one)}, many ${JSON.stringify(many)}`);
    }
  };
  for (const rule of set.rules) compare(rule.id, rule.outcome, judged.outcome(set.id, rule.id, row));
  if (set.conclusion) {
    const over = concludeCases(judged, set.id);
    const among = (sets: ReadonlyMap<string, Uint32Array>): string[] =>
      [...sets].flatMap(([id, bits]) => (isInCases(bits, row) ? [id] : []));
    compare('conclusion', set.conclusion.id === undefined ? [] : [set.conclusion.id], among(over.stands));
    compare('possible', set.conclusion.possible, among(over.possible));
    compare('settled', set.conclusion.settled, isInCases(over.settled, row));
  }
  if (set.shape === 'checklist') {
    const over = complyCases(judged, set.id);
    compare('applicable', set.compliance !== undefined, isInCases(over.applicable, row));
    if (set.compliance) {
      const { all, met, of } = set.compliance;
      const truth = isInCases(over.all.certain, row)
        ? 'true'
        : isInCases(over.all.possible, row)
          ? 'unknown'
          : 'false';
      compare('compliance', { all, met, of }, { all: truth, ...over.counts(row) });
    }
  }
  for (const choice of set.choices ?? []) {
    const over = optionsOverCases(judged, set.id, choice.of);
    for (const { id, state } of choice.options) {
      const states = Object.entries(over.get(id) ?? {}).flatMap(([name, bits]) =>
        isInCases(bits, row) ? [name] : [],
      );
      compare(`${choice.of} ${id}`, [state], states);
    }
  }
  return found;
}

test('many cases at once come out as each of them does alone', () => {
  const found: string[] = [];
  let compared = 0;
  for (let number = 0; number < PLANS; number += 1) {
    const draw = random(SEED + number);
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    const cases = Array.from({ length: CASES }, () => generateCase(draw, generated));
    const judged = judgeCases(plan, readCases(plan, cases));
    cases.forEach((patient, row) => {
      for (const set of assess(plan, patient, { reasons: 'none' }).ruleSets) {
        found.push(
          ...differences(judged, set, row).map((text) => `seed ${SEED + number}, case ${row}, ${text}`),
        );
        compared += 1;
      }
    });
    for (const { release, rules } of plan.sets) {
      for (const { rule } of rules) {
        const total = Object.values(judged.counts(release.id, rule.id)).reduce((sum, own) => sum + own, 0);
        expect(total, `${release.id}/${rule.id}`).toBe(CASES);
      }
    }
  }
  expect(compared).toBeGreaterThan(PLANS * CASES);
  expect(found.slice(0, 5), `${found.length} differ`).toEqual([]);
}, 180_000);

test('cases that were read for one plan come out right for another with the same facts', () => {
  const found: string[] = [];
  for (let number = 0; number < 40; number += 1) {
    const draw = random(SEED + number);
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    const cases = Array.from({ length: CASES }, () => generateCase(draw, generated));
    const columns = readCases(plan, cases);
    judgeCases(plan, columns);
    // Every local choice that is a number moves by one, as an author does; some stand in derivations, most in rules.
    const moved = generated.releases.map((release) => ({
      ...release,
      reads: [],
      parameters: release.parameters.map((parameter) =>
        typeof parameter.value === 'number' ? { ...parameter, value: parameter.value + 1 } : parameter,
      ),
    }));
    const edited = compile(moved, { allow: ['draft'] });
    const judged = judgeCases(edited, columns);
    cases.forEach((patient, row) => {
      for (const set of assess(edited, patient, { reasons: 'none' }).ruleSets) {
        found.push(
          ...differences(judged, set, row).map((text) => `seed ${SEED + number}, case ${row}, ${text}`),
        );
      }
    });
  }
  expect(found.slice(0, 5), `${found.length} differ`).toEqual([]);
}, 120_000);

test('what was found for one condition or rule stands while others are judged, in whatever order', () => {
  const moved: string[] = [];
  let looked = 0;
  for (let number = 0; number < 60; number += 1) {
    const draw = random(SEED + number);
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    const cases = Array.from({ length: CASES }, () => generateCase(draw, generated));
    const judged = judgeCases(plan, readCases(plan, cases));
    const all = plan.sets.flatMap(({ release, rules }) => rules.map((own) => ({ set: release.id, own })));
    const found = all.flatMap(({ set, own }) => {
      const { applies, undetermined, when } = judged.rule(set, own.rule.id);
      const conditions = [own.scope, own.when, own.expect].map((node) => judged.truthOf(node));
      return [applies, undetermined, ...[when, ...conditions].flatMap((one) => [one.certain, one.possible])];
    });
    const before = found.map((bits) => bits.slice());
    const other = judgeCases(plan, readCases(plan, cases));
    for (const { set, own } of [...all].reverse()) {
      const [here, there] = [judged, other].map((one) => JSON.stringify(one.counts(set, own.rule.id)));
      if (here !== there) moved.push(`seed ${SEED + number}, ${set}/${own.rule.id}: ${here}, ${there}`);
    }
    before.forEach((bits, at) => {
      looked += 1;
      if (bits.join() !== found[at]!.join()) moved.push(`seed ${SEED + number}, row of bits ${at}`);
    });
  }
  expect(looked).toBeGreaterThan(2000);
  expect(moved.slice(0, 5)).toEqual([]);
}, 120_000);
