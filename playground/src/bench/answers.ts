import {
  check,
  checkCase,
  parseSource,
  proveLocked,
  readDocument,
  releasesFor,
  withDocument,
} from '@dwellset/authoring';
import { assess, forecast, type Plan, type Release } from '@dwellset/core';
import type { Bench } from './bench.ts';
import { isPlan, planOf } from './judge.ts';
import { AMENDMENT, OURS } from './ours.ts';
import type { QuestionName, Questions, Side } from './shapes.ts';

/** Questions for which something may have to be fetched first. */
type Late = 'patient' | 'checkAmendment' | 'prove';
type Answer<N extends QuestionName> = (
  bench: Bench,
  ask: Questions[N]['ask'],
) => N extends Late ? Promise<Questions[N]['answer']> : Questions[N]['answer'];

/** The last plan of each side: an author tries one patient many times. */
const plans = new Map<Side, { key: unknown; sets: string; plan: Plan | readonly string[] }>();

function planFor(bench: Bench, side: Side, sets: readonly string[]): Plan | readonly string[] {
  const known = plans.get(side);
  if (known?.key === bench.library && known.sets === sets.join()) return known.plan;
  const releases = new Map<string, Release>();
  for (const set of sets) for (const one of bench.releases(side, set)) releases.set(one.id, one);
  const plan = planOf([...releases.values()], bench.library.withdrawals);
  plans.set(side, { key: bench.library, sets: sets.join(), plan });
  return plan;
}

/** The documents that a rule of one set can refer to. */
function around(bench: Bench, set: string) {
  const { documents } = bench.published;
  const others = [...bench.published.sets.keys()].filter((id) => id !== set);
  const read = new Set(releasesFor(bench.published, set).map(({ id }) => id));
  const isOther = (path: string) => others.some((id) => path.startsWith(`${id}/`) && !read.has(id));
  const isAside = (path: string) => path.startsWith('hospitals/') || path.endsWith('.vignettes.json');
  return documents.filter(({ path }) => !isOther(path) && !isAside(path));
}

export const ANSWERS: { readonly [N in QuestionName]: Answer<N> } = {
  assess: (bench, { side, sets, patient }) => {
    const plan = planFor(bench, side, sets);
    const runs = isPlan(plan) ? plan : planFor(bench, 'base', sets);
    if (!isPlan(runs)) throw new Error(runs.join('; '));
    return { assessment: assess(runs, patient, { reasons: 'all' }), problems: isPlan(plan) ? [] : plan };
  },
  forecast: (bench, { side, sets, patient, hours }) => {
    const plan = planFor(bench, side, sets);
    return isPlan(plan) ? forecast(plan, patient, { hours }) : undefined;
  },
  patient: async (bench, { set, key }) => (await bench.patient(set, key))?.case,
  checkRule: (bench, { set, rule, text }) => {
    const path = `${set}/${rule}.rule.json`;
    const source = parseSource(path, text);
    if (source.problems.length > 0) return source.problems;
    const isNew = !bench.published.sets.get(set)?.rules.has(rule);
    const others = around(bench, set).filter((document) => document.path !== path);
    return check({ documents: [...others, readDocument(path, text)] }).filter(
      ({ path: where, code }) =>
        where === path && code !== 'untested-rule' && !(isNew && code === 'unlisted-rule'),
    );
  },
  checkCase: (bench, { text }) => checkCase(bench.published, 'case.json', text),
  checkAmendment: async (bench, { text }) => {
    const source = parseSource(AMENDMENT, text);
    if (source.problems.length > 0) return source.problems;
    return check(withDocument(await bench.whole(), AMENDMENT, text)).filter(({ path }) => path === AMENDMENT);
  },
  prove: async (bench) => {
    const { amendment } = bench;
    if (amendment === undefined) return undefined;
    return proveLocked(withDocument(await bench.whole(), AMENDMENT, amendment), OURS);
  },
};
