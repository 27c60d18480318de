import { forecast as forecastCase } from '@dwellset/core';
import { forecastText } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { type Command, columns, RULES } from '../command.ts';
import { readPolicies } from '../files/policies.ts';
import { readCase } from '../files/readCase.ts';
import { planOf } from '../planOf.ts';

/** A year; beyond it every entry has long gone stale. */
const MOST_HOURS = 8784;

export const forecast: Command = {
  name: 'forecast',
  usage: [
    'CASE',
    '--hours N',
    '[--hospital DIR]',
    '[--set ID]...',
    '[--allow STATE]...',
    '[--as text|json]',
    '[--policies DIR]',
  ],
  summary: 'says what changes for one case as time goes by, if nothing else is recorded',
  details: [`N is the number of hours to look ahead, more than 0 and at most ${MOST_HOURS}.`],
  options: {
    ...RULES,
    hours: { type: 'string', value: 'N' },
    as: { type: 'string', value: 'FORM', oneOf: ['text', 'json'] },
  },
  atMost: 1,
  run(given) {
    const [path] = given.arguments;
    if (path === undefined) throw new CannotRun('no case is named; see `dwellset help forecast`');
    const stated = given.one('hours');
    if (stated === undefined) throw new CannotRun('`--hours N` is missing; see `dwellset help forecast`');
    const hours = /^\d+(\.\d+)?$/.test(stated) ? Number(stated) : Number.NaN;
    if (!(hours > 0 && hours <= MOST_HOURS)) {
      throw new CannotRun(`\`--hours ${stated}\` is not a number of hours above 0 and up to ${MOST_HOURS}`);
    }
    const policies = readPolicies(given.one('policies'), given.one('hospital'));
    const plan = planOf(policies, given);
    const read = readCase(path, policies.library);
    const found = forecastCase(plan, read, { hours });
    if (given.one('as') === 'json') return { text: `${JSON.stringify(found, null, 2)}\n` };
    const releases = plan.sets.map(({ release }) => release);
    return { text: forecastText(found, { timeZone: read.timeZone, releases, width: columns() }) };
  },
};
