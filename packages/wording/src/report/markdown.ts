import { cautions } from '../cautions.ts';
import { clean } from '../layout.ts';
import { reportContent } from './content.ts';
import type { ReportEntry, ReportPart, ReportShown, State } from './shown.ts';

/** Whatever could be taken for markup, a link, a mention or a reference is made a plain character. */
const plain = (text: string): string =>
  clean(text)
    .replace(/[\\`*_{}[\]<>()#+!|~&:@-]/g, (one) => (/[-():+]/.test(one) ? one : `\\${one}`))
    .replace(/^(\s*)([-+]|\d+[.)])(?=\s)/, '$1\\$2')
    .replace(/:\/\//g, ':\\/\\/')
    .replace(/\bwww\./gi, (one) => `${one.slice(0, 3)}\\.`);

const STATES: Readonly<Record<State, string>> = {
  passed: 'passed',
  accepted: 'accepted',
  refused: 'refused',
  'not-run': 'not run',
};

function entryLines({ label, title, state, lines }: ReportEntry): string[] {
  const known = title?.toLowerCase().startsWith(STATES[state ?? 'passed']);
  const mark = state === undefined || known ? '' : `${STATES[state]}: `;
  const head = title === undefined ? plain(label) : `${plain(label)} – ${mark}**${plain(title)}**`;
  return [`- ${head}`, ...lines.filter((line) => line !== '').map((line) => `  - ${plain(line)}`)];
}

const partLines = ({ title, opening, entries }: ReportPart): string[] => [
  '',
  `## ${plain(title)}`,
  '',
  plain(opening),
  ...(entries.length === 0 ? [] : ['', ...entries.flatMap(entryLines)]),
];

/** A report for a pull request. No text of a rule or a case can become markup. */
export function reportMarkdown(shown: ReportShown): string {
  const { title, about, parts } = reportContent(shown);
  return `${[
    `# ${plain(title)}`,
    '',
    ...cautions.map((caution) => `> ${plain(caution)}`),
    '',
    ...about.map((line) => `- ${plain(line)}`),
    ...parts.flatMap(partLines),
  ].join('\n')}\n`;
}
