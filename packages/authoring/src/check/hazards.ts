import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { didYouMean } from './nearest.ts';
import type { Survey } from './survey.ts';

const SEVERITIES = ['Minor', 'Significant', 'Considerable', 'Major', 'Catastrophic'];

/** Risk by likelihood, then by severity from minor to catastrophic; the matrix of DCB0129 practice. */
const MATRIX: Readonly<Record<string, readonly number[]>> = {
  'Very high': [3, 4, 4, 5, 5],
  High: [2, 3, 3, 4, 5],
  Medium: [2, 2, 3, 3, 4],
  Low: [1, 2, 2, 3, 4],
  'Very low': [1, 1, 2, 2, 3],
};

/** Every vignette as `set/vignette`. */
export function vignetteNames(survey: Survey): ReadonlySet<string> {
  const names = new Set<string>();
  for (const { id, vignettes } of survey.sets.values()) {
    for (const root of vignettes.values()) {
      for (const entry of root.at('vignettes').items) {
        const name = entry.at('id').text;
        if (name !== undefined) names.add(`${id}/${skeleton(name)}`);
      }
    }
  }
  return names;
}

/** One entry of the hazard log: its controls are vignettes, its risks those of the matrix. */
export function checkHazard(entry: Cursor, vignettes: ReadonlySet<string>, { find }: Context): void {
  const owner = `hazard \`${entry.at('id').text ?? ''}\``;
  for (const control of entry.at('controls').items) {
    if (control.text === undefined || vignettes.has(skeleton(control.text))) continue;
    find.report('hazard-control-missing', control, {
      message: `the control \`${control.text}\` of ${owner} is no vignette`,
      received: control.text,
      ...didYouMean(control.text, vignettes),
    });
  }
  const status = entry.at('status');
  if (status.text === 'closed' && entry.at('controls').isList && entry.at('controls').items.length === 0) {
    find.report('hazard-uncontrolled', status, {
      message: `${owner} is closed, but no control is named`,
      expected: 'open, transferred',
      received: status.text,
    });
  }
  for (const key of ['initial', 'residual'] as const) {
    const risk = entry.at(key);
    const { severity, likelihood } = {
      severity: risk.at('severity').text,
      likelihood: risk.at('likelihood').text,
    };
    if (severity === undefined || likelihood === undefined || !Object.hasOwn(MATRIX, likelihood)) continue;
    const expected = MATRIX[likelihood]?.[SEVERITIES.indexOf(severity)];
    const received = risk.at('risk').number;
    if (expected === undefined || received === undefined || received === expected) continue;
    find.report('risk-off-matrix', risk.at('risk'), {
      message: `the ${key} risk of ${owner} is ${received}, but \`${severity}\` and \`${likelihood}\` give ${expected}`,
      expected: String(expected),
      received: String(received),
    });
  }
}
