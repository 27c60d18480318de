import { type Assessment, assess as assessCase, type Case, type Plan } from '@dwellset/core';
import { crossCheck } from '@dwellset/crosscheck';
import { assessmentHtml, assessmentText, crossCheckText } from '@dwellset/wording';
import { CannotRun, type Finished } from '../cannotRun.ts';
import { type Command, columns, RULES } from '../command.ts';
import { readPolicies } from '../files/policies.ts';
import { readCase } from '../files/readCase.ts';
import { toFile } from '../files/toFile.ts';
import type { Given } from '../options.ts';
import { planOf } from '../planOf.ts';
import { assessLines } from './assessLines.ts';

type Reasons = 'deciding' | 'all' | 'none';

export interface NamedCase {
  /** The file, or whatever tells the cases apart on the page; never the id of the case. */
  readonly name: string;
  readonly case: Case;
}

/** Assesses cases one after the other; several are told apart by their names. */
export async function assessAll(plan: Plan, cases: readonly NamedCase[], given: Given): Promise<Finished> {
  const form = given.one('as') ?? 'text';
  const page = form === 'html';
  const to = given.one('to');
  if (page && cases.length > 1) throw new CannotRun('`--as html` takes one case; see `dwellset help assess`');
  if (!page && to !== undefined) throw new CannotRun('`--to` needs `--as html`; see `dwellset help assess`');
  // A page has room for every statement of reasons, folded until it is asked for.
  const reasons = (given.one('reasons') ?? (page ? 'all' : 'deciding')) as Reasons;
  const releases = plan.sets.map(({ release }) => release);
  // The text weighs rules that did not apply as well, and so reads every statement even where it shows few.
  const needed = form === 'text' && reasons === 'deciding' ? 'all' : reasons;
  const assessments = cases.map((entry) => assessCase(plan, entry.case, { reasons: needed }));
  const checked = given.has('cross-check')
    ? await Promise.all(
        cases.map(async (entry) => ({ name: entry.name, ...(await crossCheck(plan, entry.case)) })),
      )
    : [];
  const failed = checked.some(({ agrees }) => !agrees);
  const text = (assessment: Assessment, index: number) => {
    const body = assessmentText(assessment, { reasons, releases, width: columns() });
    return cases.length === 1 ? body : `${cases[index]?.name}\n\n${body}`;
  };
  const json = (value: unknown) => `${JSON.stringify(value, null, 2)}\n`;
  const written = (): Finished => {
    const [only] = assessments;
    if (form === 'json') return { text: json(assessments.length === 1 ? only : assessments) };
    if (!page || only === undefined) return { text: assessments.map(text).join('\n\n') };
    // A page is kept and passed on, away from what standard error says: none is made of a doubtful outcome.
    return failed ? { text: '' } : toFile(to, () => assessmentHtml(only, { releases }));
  };
  return {
    ...written(),
    failed,
    // On standard error, so that the assessment itself stays what it is without the check.
    ...(checked.length === 0 ? {} : { aside: checked.map((result) => crossCheckText(result)).join('') }),
  };
}

export const assess: Command = {
  name: 'assess',
  usage: [
    'CASE...|-',
    '[--hospital DIR]',
    '[--set ID]...',
    '[--allow STATE]...',
    '[--as text|json|html]',
    '[--to FILE]',
    '[--reasons deciding|all|none]',
    '[--cross-check]',
    '[--threads N]',
    '[--progress]',
    '[--policies DIR]',
  ],
  summary: 'says for each case what to do, why, from which source, and what to ask',
  details: [
    'CASE is a case file. With --hospital the rules are those the hospital has adopted; without it all sets as shipped, which are drafts and need --allow draft.',
    '--reasons deciding shows what was found behind each advice, all also shows every rule with its statement.',
    '--as html writes one case as a page that holds everything it needs, every statement of reasons included; it goes to FILE, whose name ends in .html, or to standard output.',
    '--cross-check computes every outcome a second time on an independent engine; where the two disagree no page is written.',
    'With - for CASE, cases come from standard input as JSON, one a line, and go to standard output in the same order, one line each; the first line is a head with the cautions, the rule sets and the evidence of every rule. A line that cannot be read gives a line with its number and why, the others are assessed, and the exit code is 2. --reasons is none there unless stated; with deciding or all a line holds the whole assessment.',
    '--threads says how many threads assess the lines of standard input, one fewer than there are cores if it is not stated; --progress counts on standard error, as a terminal always shows.',
    'Clinical advice is never an error: the exit code is 0 whatever is advised, 2 only where the cross-check disagrees.',
  ],
  options: {
    ...RULES,
    as: { type: 'string', value: 'FORM', oneOf: ['text', 'json', 'html'] },
    to: { type: 'string', value: 'FILE' },
    reasons: { type: 'string', value: 'WHICH', oneOf: ['deciding', 'all', 'none'] },
    'cross-check': { type: 'boolean' },
    threads: { type: 'string', value: 'N' },
    progress: { type: 'boolean' },
  },
  run(given) {
    if (given.arguments.length === 0) {
      throw new CannotRun('no case is named; see `dwellset help assess`');
    }
    if (given.arguments.includes('-')) return assessLines(given);
    for (const option of ['threads', 'progress']) {
      if (given.has(option)) throw new CannotRun(`\`--${option}\` needs \`-\`; see \`dwellset help assess\``);
    }
    const policies = readPolicies(given.one('policies'), given.one('hospital'));
    const plan = planOf(policies, given);
    const cases = given.arguments.map((path) => ({ name: path, case: readCase(path, policies.library) }));
    return assessAll(plan, cases, given);
  },
};
