import { join } from 'node:path';
import { CannotRun } from '../cannotRun.ts';
import { type Command, POLICIES } from '../command.ts';
import { fromHere, readPolicies } from '../files/policies.ts';
import { readCase } from '../files/readCase.ts';
import { planOf } from '../planOf.ts';
import { assessAll } from './assess.ts';

/** The invented hospital whose cases are shown. */
const HOSPITAL = 'harrowmere';

export const demo: Command = {
  name: 'demo',
  usage: ['[--policies DIR]'],
  summary: 'assesses the invented patients of an invented hospital',
  details: [`Its cases are the files policies/hospitals/${HOSPITAL}/cases/*.case.json.`],
  options: POLICIES,
  atMost: 0,
  run(given) {
    const policies = readPolicies(given.one('policies'), HOSPITAL);
    const plan = planOf(policies, given);
    const folder = `hospitals/${HOSPITAL}/cases/`;
    const cases = policies.library.documents
      .filter(({ path }) => path.startsWith(folder) && path.endsWith('.case.json'))
      .map(({ path }) => join(policies.folder, path))
      .map((path) => ({ name: fromHere(path), case: readCase(fromHere(path), policies.library) }));
    if (cases.length === 0) throw new CannotRun(`${policies.shown(folder)}: holds no case files`);
    return assessAll(plan, cases, given);
  },
};
