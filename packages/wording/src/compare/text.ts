import type { Release } from '@dwellset/core';
import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, clean, usableWidth, wrap } from '../layout.ts';
import { counted, listed, wordsOf } from '../words.ts';
import { itemLines } from './itemLines.ts';
import { isQuestion, outcomeLines, questionLines, share } from './outcomeLines.ts';
import type { ComparisonShown, ComparisonTextOptions, ReleaseShown } from './shown.ts';
import { type SideNames, sideNames } from './sideNames.ts';

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

function ranWords({ ran }: ComparisonShown): string {
  const made = ran.probes === 0 ? '' : ` and ${counted(ran.probes, 'case')} made for the parts that changed`;
  const days = counted(ran.wardDays, 'invented ward day');
  return `Both sides were run on ${counted(ran.vignettes, 'vignette')}${made === '' ? ' and' : ','} ${days}${made}: ${counted(ran.answers, 'answer')} laid side by side.`;
}

/** What comes of it, as minutes would record it. */
function resultWords({ outcomes, differing, ran }: ComparisonShown): string {
  if (outcomes.length === 0) return 'No outcome changed.';
  return `${differing.vignettes} of ${counted(ran.vignettes, 'vignette')}${share(differing.vignettes, ran.vignettes)} and ${differing.wardDays} of ${counted(ran.wardDays, 'ward day')}${share(differing.wardDays, ran.wardDays)} come out otherwise in at least one answer.`;
}

function bumpLines({ bump, reasons, before, after }: ComparisonShown, width: number): string[] {
  // A hospital's rules are no next version of what is published, or of another hospital's.
  if (before?.amendedBy !== after?.amendedBy) return [];
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

function setBlocks(
  comparison: ComparisonShown,
  releases: readonly Release[],
  names: SideNames,
  width: number,
): string[][] {
  const words = wordsOf([...releases]);
  const { set, before, after, items, outcomes } = comparison;
  const of = (side: ReleaseShown | undefined, at: number) =>
    side && releases.filter(({ id }) => id === set).at(at);
  const sides = { before: of(before, -1), after: of(after, 0), names };
  const context = { all: comparison, words, names, releases };
  const logic = items.filter(({ change, fields }) => change !== 'changed' || fields.some((f) => !f.wording));
  const texts = items.filter((item) => !logic.includes(item));
  const heading = `${words.sets.get(set) ?? set} (${set})`;
  const section = (title: string, lines: readonly string[]) => (lines.length === 0 ? [] : [title, ...lines]);
  const said = outcomes.filter((outcome) => !isQuestion(outcome));
  const [first, second] = names.inTime ? ['before: ', 'after:  '] : ['', ''];
  return [
    [
      heading,
      ...wrap(`${first}${sideWords(before)}`, width, '  '),
      ...wrap(`${second}${sideWords(after)}`, width, '  '),
    ],
    wrap(resultWords(comparison), width),
    section(
      names.inTime ? 'What decides, as it was and as it is' : 'What decides, at either hospital',
      logic.flatMap((item) => itemLines(item, sides, width)),
    ),
    ...(said.length === 0
      ? []
      : [[names.inTime ? 'Outcomes that changed' : 'Outcomes that differ']].concat(
          said.map((outcome, at) => outcomeLines(outcome, said[at - 1], context, width)),
        )),
    section(
      'Questions that come or go, and nothing that is said with them',
      outcomes.filter(isQuestion).flatMap((outcome) => questionLines(outcome, context, width)),
    ),
    section(
      'Words and sources',
      texts.flatMap((item) => itemLines(item, sides, width)),
    ),
    wrap(ranWords(comparison), width),
    bumpLines(comparison, width),
  ];
}

/** One comparison as blocks of unbroken lines, each with its heading first: for pages, that break lines themselves. */
export const comparisonParts = (comparison: ComparisonShown, releases: readonly Release[]): string[][] =>
  setBlocks(comparison, releases, sideNames([comparison]), Number.POSITIVE_INFINITY).filter(
    (block) => block.length > 0,
  );

/** Releases side by side, set by set: what came out otherwise, with the smallest case, and what reads otherwise. */
export function comparisonText(
  comparisons: readonly ComparisonShown[],
  options: ComparisonTextOptions = {},
): string {
  const width = usableWidth(options.width);
  const names = sideNames(comparisons);
  const title = names.inTime ? 'Version comparison' : `Comparison of ${names.before} and ${names.after}`;
  return asText(
    blocks([
      wrap(clean(title), width),
      ...comparisons.flatMap((comparison) => setBlocks(comparison, options.releases ?? [], names, width)),
      wrap('The ward is invented; its shares are no forecast for any hospital.', width),
      cautionLines(cautions, width),
    ]),
  );
}
