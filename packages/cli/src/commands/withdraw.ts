import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { withdrawalOf, withdrawalPath } from '@dwellset/authoring';
import { withdrawnText } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { type Command, columns, POLICIES } from '../command.ts';
import { fromHere, readPolicies } from '../files/policies.ts';
import { releaseFileAt, writeOnce } from '../files/releaseFiles.ts';
import type { Given } from '../options.ts';

function required(given: Given, option: string): string {
  const said = given.one(option)?.trim();
  if (said) return said;
  throw new CannotRun(`\`--${option}\` is needed; see \`dwellset help withdraw\``);
}

/** A day of the calendar: the one that is stated, or today where the command runs. */
function dayOf(given: Given): string {
  const stated = given.one('date');
  const now = new Date();
  if (stated === undefined) {
    const [month, day] = [now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0'));
    return `${now.getFullYear()}-${month}-${day}`;
  }
  const exists = /^\d{4}-\d{2}-\d{2}$/.test(stated) && !Number.isNaN(Date.parse(`${stated}T00:00Z`));
  if (!exists || new Date(`${stated}T00:00Z`).toISOString().slice(0, 10) !== stated) {
    throw new CannotRun(`\`--date ${stated}\` is no day, expected YYYY-MM-DD`);
  }
  return stated;
}

export const withdraw: Command = {
  name: 'withdraw',
  usage: [
    'RELEASE',
    '--reason TEXT',
    '--by ROLE',
    '[--replacement VERSION]',
    '[--date DAY]',
    '[--policies DIR]',
  ],
  summary: 'takes a released version out of use and says why; the released file stays as it is',
  details: [
    'RELEASE is a release file, or SET-VERSION of one among the policies.',
    'It writes withdrawals/SET-VERSION.json once. From then on that version does not run for anybody who reads these policies, adopted and amended or not, unless `--allow withdrawn` says so; `check` reports every hospital that names it.',
    'Without --date it is withdrawn as of today.',
  ],
  options: {
    ...POLICIES,
    reason: { type: 'string', value: 'TEXT' },
    by: { type: 'string', value: 'ROLE' },
    replacement: { type: 'string', value: 'VERSION' },
    date: { type: 'string', value: 'DAY' },
  },
  atMost: 1,
  run(given) {
    const [named] = given.arguments;
    if (named === undefined) throw new CannotRun('no release is named; see `dwellset help withdraw`');
    const [reason, approverRole, date] = [required(given, 'reason'), required(given, 'by'), dayOf(given)];
    const replacement = given.one('replacement');
    if (replacement !== undefined && !/^\d+\.\d+\.\d+$/.test(replacement)) {
      throw new CannotRun(`\`--replacement ${replacement}\` is no version, expected three numbers as 0.2.0`);
    }
    const { folder, library } = readPolicies(given.one('policies'));
    const near = resolve(named);
    const path = existsSync(near) ? near : join(folder, `releases/${named}.json`);
    const file = releaseFileAt(path);
    const record = withdrawalOf(file, {
      reason,
      approverRole,
      date,
      ...(replacement !== undefined && { replacement }),
    });
    if (replacement === record.version) {
      throw new CannotRun(`\`--replacement ${replacement}\` is the version that is withdrawn`);
    }
    const target = join(folder, withdrawalPath(record));
    writeOnce(
      target,
      `${JSON.stringify(record, null, 2)}\n`,
      'is withdrawn already; the record never changes',
    );
    const adopting = [...library.hospitals.values()].flatMap(({ adoption }) =>
      adoption?.value.releases.some(({ id, version }) => id === record.id && version === record.version)
        ? [adoption.value.organisation]
        : [],
    );
    return { text: withdrawnText(record, fromHere(target), adopting, columns()) };
  },
};
