import { buildRelease, releasesFor, withDocument } from '@dwellset/authoring';
import {
  type Constant,
  canonicalJson,
  judgeCases,
  type Parameter,
  type Rule,
  readCases,
} from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { isPlan, type Judge, planOf } from '../../playground/src/bench/judge.ts';
import { AMENDMENT, OURS } from '../../playground/src/bench/ours.ts';
import { openedOf, type Patient, patientsOf, vignettesIn } from '../../playground/src/bench/published.ts';
import { Quick } from '../../playground/src/bench/quick.ts';
import { type Draft, EMPTY } from '../../playground/src/draft/draft.ts';
import { toAmendment } from '../../playground/src/draft/toAmendment.ts';
import { library } from '../policies/shipped.ts';

const { sets, dictionary } = openedOf(library);
const files = new Map(library.documents.map(({ path, source }) => [path, source.text]));

/** Local choices tried in one set, each by a build of its own. */
const MOST = 10;

/** Other values of a local choice: what sources stand for, the ends of its range, the other answer, a shorter list. */
function others({ value, range, positions, type, codes }: Parameter): Constant[] {
  const found: Constant[] = [...positions.map((position) => position.value), ...(range ?? [])];
  if (type === 'boolean') found.push(!value);
  if (Array.isArray(value)) found.push(value.slice(1) as Constant, value.slice(0, -1) as Constant);
  if (type === 'code') found.push(...Object.keys(dictionary.codes[codes ?? ''] ?? {}));
  const isOther = (one: Constant): boolean => canonicalJson(one) !== canonicalJson(value);
  return found.filter((one) => isOther(one) && (!Array.isArray(one) || one.length > 0));
}

const choices = (drafts: [string, Constant][]): Draft => ({
  ...EMPTY,
  choices: Object.fromEntries(
    drafts.map(([path, value]) => [path, { value, reason: 'we try it', evidence: [] }]),
  ),
});

const rules = (edits: Draft['rules']): Draft => ({ ...EMPTY, rules: edits });

/** Rule → how it ends for every patient, in one text. */
function ends(
  { set, plan, rules }: Judge,
  patients: readonly Patient[],
  columns: ReturnType<typeof readCases>,
) {
  const judged = judgeCases(plan, columns);
  return new Map(
    rules.map((rule) => [rule, patients.map((_, row) => judged.outcome(set, rule, row)).join()]),
  );
}

function judgeOf(set: string, releases: ReturnType<typeof releasesFor>): Judge {
  const plan = planOf(releases);
  if (!isPlan(plan)) throw new Error(plan.join('; '));
  return { set, plan, rules: releases.find(({ id }) => id === set)!.rules.map(({ id }) => id) };
}

describe.each(sets.map(({ id }) => id))('the rules of %s that a change reaches', (set) => {
  const published = releasesFor(library, set);
  const patients = patientsOf(vignettesIn(library.sets.get(set)!, files), undefined);
  const base = judgeOf(set, published);
  const columns = readCases(
    base.plan,
    patients.map((patient) => patient.case),
  );
  const before = ends(base, patients, columns);
  const quick = new Quick(set, published);

  /** How many rules end differently, quickly as by the build, which refuses some changes. */
  function tried(draft: Draft): number | undefined {
    const amendment = toAmendment(draft, sets, { trying: true });
    if (!amendment) throw new Error('nothing is changed');
    const amended = withDocument(library, AMENDMENT, JSON.stringify(amendment));
    const { refused } = buildRelease(amended, set, { hospital: OURS });
    if (refused) return undefined;
    const whole = judgeOf(set, releasesFor(amended, set, { hospital: OURS }));
    const after = ends(whole, patients, columns);
    const judge = quick.judge(amendment);
    if (!judge) throw new Error('it waits for the build');
    expect(judge.all).toEqual(whole.rules);
    const told = new Map([...before, ...ends(judge, patients, columns)]);
    const differ = [...after].filter(([rule, end]) => told.get(rule) !== end).map(([rule]) => rule);
    expect(differ, JSON.stringify([draft.choices, draft.rules])).toEqual([]);
    return [...after].filter(([rule, end]) => before.get(rule) !== end).length;
  }

  test('end at once as they will once the changed set is built, whatever local choice is made', () => {
    const { parameters } = published.find(({ id }) => id === set)!;
    const every = Math.ceil(parameters.length / MOST);
    const tries = parameters.flatMap((parameter, index): [string, Constant][] => {
      const values = others(parameter);
      return index % every > 0 || values.length === 0 ? [] : [[parameter.id, values[index % values.length]!]];
    });
    const moved = tries.flatMap((one) => tried(choices([one])) ?? []);
    expect(moved.filter((count) => count > 0).length).toBeGreaterThan(1);
    tried(choices(tries));
  });

  test('are the one that is switched off, written anew or added', () => {
    const own = published.find(({ id }) => id === set)!;
    const open = own.rules.filter(({ locked, when, expect: wanted }) => !locked && (when ?? wanted));
    const [first, second, third] = [open[0]!, open[1]!, open.at(-1)!];
    const turned = ({ when, expect: wanted, ...rule }: Rule): string =>
      JSON.stringify({
        $schema: 'urn:dwellset:rule:1',
        ...rule,
        ...(when && { when: { not: when } }),
        ...(wanted && { expect: { not: wanted } }),
      });
    const reason = 'we try it';
    const all: Draft['rules'] = {
      [`${set}/${first.id}`]: { off: true, reason },
      [`${set}/${second.id}`]: { text: turned(second), reason },
      [`${set}/our-own`]: {
        text: turned({ ...third, id: 'our-own' }),
        added: { after: second.id },
        reason,
      },
    };
    const moved = Object.entries(all).map(([key, edit]) => tried(rules({ [key]: edit })));
    expect(moved.filter((count) => count !== undefined && count > 0).length).toBeGreaterThan(1);
    tried(rules(all));
  });
});
