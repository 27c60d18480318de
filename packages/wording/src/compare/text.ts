import type { Release } from '@dwellset/core';
import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, usableWidth, wrap } from '../layout.ts';
import { momentWords } from '../values/moment.ts';
import { counted, listed, type Words, wordsOf } from '../words.ts';
import { caseLines } from './caseWords.ts';
import { itemLines } from './itemLines.ts';
import type { ComparisonShown, ComparisonTextOptions, ReleaseShown } from './shown.ts';

type Outcome = ComparisonShown['outcomes'][number];

const DIRECTIONS: Readonly<Record<string, string>> = {
  new: 'speaks where it was silent or undecided',
  stronger: 'speaks more strongly',
  lost: 'no longer speaks',
  weaker: 'speaks less strongly',
  'newly-undetermined': 'can no longer be decided, and asks',
  'newly-settled': 'was undecided, and is now settled without speaking',
  otherwise: 'comes out otherwise',
};

const REASONS: Readonly<Record<string, string>> = {
  'outcome-changed': 'when advice appears has changed',
  'rule-removed': 'a rule is gone',
  'option-removed': 'an item of stock is gone',
  'logic-changed-unshown':
    'what decides reads otherwise; no case was found that comes out otherwise, and that is no proof that none exists',
  'rule-added': 'a rule is added',
  'option-added': 'an item of stock is added',
  wording: 'words or sources have changed',
};

const sideWords = (release: ReleaseShown | undefined): string =>
  release === undefined
    ? 'no such set'
    : `${release.version} ${release.digest.slice(0, 12)}${release.amendedBy ? `, as amended by ${release.amendedBy}` : ', as published'}`;

const share = (part: number, whole: number): string =>
  whole === 0 ? '' : ` (${((100 * part) / whole).toFixed(1)} %)`;

/** How many cases show it: of vignettes, and of the days of invented wards. */
function countWords({ vignettes, wardDays }: Outcome, { ran }: ComparisonShown): string {
  if (vignettes + wardDays === 0)
    return 'Seen in no vignette and on no ward day, only in a case made for it.';
  return `Seen in ${vignettes} of ${counted(ran.vignettes, 'vignette')} and on ${wardDays} of ${counted(ran.wardDays, 'ward day')}${share(wardDays, ran.wardDays)}.`;
}

function outcomeLines(outcome: Outcome, all: ComparisonShown, words: Words, width: number): string[] {
  const { subject, direction, witness } = outcome;
  const title = subject === 'conclusion' ? 'The conclusion' : words.rules.get(`${all.set}/${subject}`);
  const name =
    title === undefined || subject === 'conclusion' ? (title ?? subject) : `"${title}" (${subject})`;
  const { case: patient, item, before, after } = witness;
  const on = item === undefined ? '' : `, on ${item}`;
  const moment = momentWords(patient.asOf, patient.timeZone);
  return [
    ...wrap(`${name} ${DIRECTIONS[direction] ?? direction}.`, width, '  ', '     '),
    ...wrap(countWords(outcome, all), width, '     '),
    ...wrap(
      `Smallest case found, as of ${moment}${on}: before ${before}; after ${after}. From ${witness.name}.`,
      width,
      '     ',
    ),
    ...caseLines(patient, words).flatMap((line) => wrap(line, width, '       ', '         ')),
  ];
}

function ranWords({ ran }: ComparisonShown): string {
  const made = ran.probes === 0 ? '' : ` and ${counted(ran.probes, 'case')} made for the parts that changed`;
  return `Both sides were run on ${counted(ran.vignettes, 'vignette')}, ${counted(ran.wardDays, 'invented ward day')}${made}: ${counted(ran.answers, 'answer')} laid side by side.`;
}

/** What comes of it, as minutes would record it. */
function resultWords({ outcomes, differing, ran }: ComparisonShown): string {
  if (outcomes.length === 0) return 'No outcome changed.';
  return `${differing.vignettes} of ${counted(ran.vignettes, 'vignette')}${share(differing.vignettes, ran.vignettes)} and ${differing.wardDays} of ${counted(ran.wardDays, 'ward day')}${share(differing.wardDays, ran.wardDays)} come out otherwise in at least one answer.`;
}

function bumpLines({ bump, reasons }: ComparisonShown, width: number): string[] {
  if (bump === 'none') return ['No new version is needed.'];
  return [
    `This demands a ${bump} version.`,
    ...reasons.flatMap((reason) =>
      wrap(
        `${reason.bump}: ${REASONS[reason.why] ?? reason.why} – ${listed(reason.items, 'and')}`,
        width,
        '  ',
        '     ',
      ),
    ),
  ];
}

function setBlocks(comparison: ComparisonShown, releases: readonly Release[], width: number): string[][] {
  const words = wordsOf([...releases]);
  const { set, before, after, items, outcomes } = comparison;
  const of = (side: ReleaseShown | undefined, at: number) =>
    side && releases.filter(({ id }) => id === set).at(at);
  const [now, was] = [of(after, 0), of(before, -1)];
  const logic = items.filter(({ change, fields }) => change !== 'changed' || fields.some((f) => !f.wording));
  const texts = items.filter((item) => !logic.includes(item));
  const heading = `${words.sets.get(set) ?? set} (${set})`;
  const section = (title: string, lines: string[]) => (lines.length === 0 ? [] : [title, ...lines]);
  return [
    [
      heading,
      ...wrap(`before: ${sideWords(before)}`, width, '  '),
      ...wrap(`after:  ${sideWords(after)}`, width, '  '),
    ],
    wrap(resultWords(comparison), width),
    ...(outcomes.length === 0
      ? []
      : [['Outcomes that changed']].concat(
          outcomes.map((outcome) => outcomeLines(outcome, comparison, words, width)),
        )),
    section(
      'What decides, as it was and as it is',
      logic.flatMap((item) => itemLines(item, was, now, width)),
    ),
    section(
      'Words and sources',
      texts.flatMap((item) => itemLines(item, was, now, width)),
    ),
    wrap(ranWords(comparison), width),
    bumpLines(comparison, width),
  ];
}

/** Releases side by side, set by set: what came out otherwise, with the smallest case, and what reads otherwise. */
export function comparisonText(
  comparisons: readonly ComparisonShown[],
  options: ComparisonTextOptions = {},
): string {
  const width = usableWidth(options.width);
  return asText(
    blocks([
      ['Version comparison'],
      ...comparisons.flatMap((comparison) => setBlocks(comparison, options.releases ?? [], width)),
      wrap('The ward is invented; its shares are no forecast for any hospital.', width),
      cautionLines(cautions, width),
    ]),
  );
}
