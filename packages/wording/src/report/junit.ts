import { cautions } from '../cautions.ts';
import { clean } from '../layout.ts';
import { mismatchWords, vignetteFailed } from './results.ts';
import type { ReportedGate, ReportShown } from './shown.ts';

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
};

/** Characters that XML 1.0 cannot hold go, lone halves of a pair and non-characters with them. */
const xml = (text: string): string =>
  clean(text)
    .replace(/\p{Cs}/gu, '?')
    .replace(/[\uFFFE\uFFFF]/g, '?')
    .replace(/[&<>"']/g, (one) => ENTITIES[one] ?? '');

interface TestCase {
  readonly classname: string;
  readonly name: string;
  readonly failure?: string;
  readonly skipped?: string;
  /** Said beside what passed. */
  readonly out?: string;
}

function caseLines({ classname, name, failure, skipped, out }: TestCase): string[] {
  const open = `    <testcase classname="${xml(classname)}" name="${xml(name)}"`;
  const inside = [
    ...(failure === undefined ? [] : [`      <failure message="${xml(failure)}"/>`]),
    ...(skipped === undefined ? [] : [`      <skipped message="${xml(skipped)}"/>`]),
    ...(out === undefined ? [] : [`      <system-out>${xml(out)}</system-out>`]),
  ];
  return inside.length === 0 ? [`${open}/>`] : [`${open}>`, ...inside, '    </testcase>'];
}

const attributes = (cases: readonly TestCase[]): string =>
  `tests="${cases.length}" failures="${cases.filter(({ failure }) => failure !== undefined).length}" errors="0" skipped="${cases.filter(({ skipped }) => skipped !== undefined).length}"`;

function gateCase(gate: ReportedGate, set: string): TestCase {
  const named = { classname: `gates.${set}`, name: gate.gate };
  if (gate.outcome === 'not-run') return { ...named, skipped: 'not run for this report' };
  const found = gate.findings.join('; ');
  if (gate.outcome === 'refused') return { ...named, failure: found };
  return gate.outcome === 'accepted' ? { ...named, out: `accepted: ${gate.reason ?? ''} – ${found}` } : named;
}

/** Suites of a report for a pipeline: the check, then of each set its gates and its vignettes, one test each. */
export function reportJunit({ sets, findings }: ReportShown): string {
  const errors = findings.filter(({ severity }) => severity === 'error');
  const suites: (readonly [string, readonly TestCase[]])[] = [
    [
      'check',
      errors.length === 0
        ? [{ classname: 'check', name: 'documents' }]
        : errors.map(({ path, range, code, message }) => ({
            classname: 'check',
            name: `${path}:${range.line}:${range.column} ${code}`,
            failure: message,
          })),
    ],
    ...sets.flatMap(({ release: { id }, gates, vignettes }): (readonly [string, readonly TestCase[]])[] => [
      [`gates.${id}`, gates.map((gate) => gateCase(gate, id))],
      [
        `vignettes.${id}`,
        vignettes.map((one) => ({
          classname: `vignettes.${id}`,
          name: `${one.id}: ${one.title}`,
          ...(vignetteFailed(one) && { failure: mismatchWords(one) }),
          ...(one.changedBy && { out: `changed by local policy: ${mismatchWords(one)}` }),
        })),
      ],
    ]),
  ];
  const all = suites.flatMap(([, cases]) => cases);
  return `${[
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites name="dwellset" ${attributes(all)}>`,
    ...suites.flatMap(([name, cases]) => [
      `  <testsuite name="${xml(name)}" ${attributes(cases)}>`,
      ...(name === 'check' ? [`    <properties>${cautionProperty}</properties>`] : []),
      ...cases.flatMap(caseLines),
      '  </testsuite>',
    ]),
    '</testsuites>',
  ].join('\n')}\n`;
}

const cautionProperty = `<property name="caution" value="${xml(cautions.join(' '))}"/>`;
