import {
  type Assessment,
  type Case,
  compile,
  evaluate,
  explain,
  type Forecast,
  forecast,
  type Plan,
} from '@dwellset/core';
import { expect, test } from 'vitest';
import { caseAt, planOf } from '../policies/shipped.ts';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';

const SEED = Number(process.env.SEED ?? 20_261_125);
const HOURS = 50;
const MS_PER_HOUR = 3_600_000;

const at = (plan: Plan, patient: Case, asOf: number): Assessment =>
  explain(evaluate(plan, patient, { asOf }), { reasons: 'none' });

type Outcomes = ReadonlyMap<string, string>;

const outcomesOf = (assessment: Assessment): Outcomes =>
  new Map(
    assessment.ruleSets.flatMap((set) =>
      set.rules.map((rule) => [`${set.id}/${rule.id}`, rule.outcome] as const),
    ),
  );

/** What the forecast says of an instant: the outcomes at the start with every change up to then made to them. */
function foretold(start: Outcomes, { changes }: Forecast, instant: number): Outcomes {
  const now = new Map(start);
  for (const change of changes) {
    if (Date.parse(change.at) > instant) break;
    for (const { set, rule, to } of change.rules) now.set(`${set}/${rule}`, to);
  }
  return now;
}

/** Compares forecast and evaluation at many instants: every half hour, and each foretold instant and the ms before. */
function compare(plan: Plan, patient: Case): { changes: number; instants: number } {
  const from = Date.parse(patient.asOf);
  const told = forecast(plan, patient, { hours: HOURS });
  const start = outcomesOf(at(plan, patient, from));
  const regular = Array.from({ length: HOURS * 2 + 1 }, (_, index) => from + (index * MS_PER_HOUR) / 2);
  const edges = told.changes.flatMap((change) => [Date.parse(change.at) - 1, Date.parse(change.at)]);
  const instants = [...regular, ...edges].filter(
    (instant) => instant >= from && instant <= from + HOURS * MS_PER_HOUR,
  );
  for (const instant of instants) {
    const expected = outcomesOf(at(plan, patient, instant));
    expect(foretold(start, told, instant), new Date(instant).toISOString()).toEqual(expected);
  }
  return { changes: told.changes.length, instants: instants.length };
}

test('the forecast misses no change of 100 random rule sets, and foretells none that does not come', () => {
  let [changes, instants] = [0, 0];
  for (let set = 0; set < 100; set += 1) {
    const draw = random(SEED + set);
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    for (let index = 0; index < 4; index += 1) {
      const patient = generateCase(draw, generated);
      if (Number.isNaN(Date.parse(patient.asOf))) continue;
      const seen = compare(plan, patient);
      changes += seen.changes;
      instants += seen.instants;
    }
  }
  console.info(`seed ${SEED}: ${changes} foretold changes held against ${instants} evaluations`);
  expect(changes).toBeGreaterThan(100);
}, 180_000);

test.each(['after-operation', 'after-removal', 'being-catheterised'])(
  'the forecast of the shipped rules for the case %s agrees with evaluating it later',
  (name) => {
    const sets = ['indication', 'insertion-bundle', 'maintenance-bundle', 'catheter-choice', 'removal'];
    expect(compare(planOf(sets, 'harrowmere'), caseAt('harrowmere', name)).changes).toBeGreaterThan(0);
  },
);
