import type { EvidenceStatus, Release } from '@dwellset/core';
import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, clean, labelled, usableWidth, wrap } from '../layout.ts';
import { statusWords } from '../status.ts';
import { counted, listed, type Words, wordsOf } from '../words.ts';
import { placeWords } from './diagnostic.ts';
import { type ConflictShown, conflictWords, type JudgedShown, judgedWords } from './scoreboardItems.ts';

/** One published answer and what the rules make of it. */
export interface CaseScoreShown {
  readonly id: string;
  readonly locator: string;
  readonly status: EvidenceStatus;
  readonly says: string;
  readonly verdict: 'agreed' | 'disagreed' | 'not-decidable';
  readonly judged: readonly JudgedShown[];
  readonly fed: boolean;
  readonly differs?: string;
  readonly conflicts: readonly ConflictShown[];
  readonly range: { readonly line: number; readonly column: number };
}

/** One answer key: where it comes from, where it lies, and its cases. */
export interface KeyScoreShown {
  readonly id: string;
  readonly title: string;
  readonly path: string;
  readonly cases: readonly CaseScoreShown[];
}

export interface ScoreboardTextOptions {
  readonly width?: number;
  /** They hold the words of facts, codes, conclusions and local choices. */
  readonly releases?: readonly Release[];
}

/** What agreement is worth. */
const WORTH =
  'Transcription agreement: the rules were written from the same row, so it shows that the row was copied rightly and no more. Independent agreement: they were not.';

/** The counts of every key, then each case that does not agree, with its reason. */
export function scoreboardText(keys: readonly KeyScoreShown[], options: ScoreboardTextOptions = {}): string {
  const width = usableWidth(options.width);
  const words = wordsOf(options.releases ?? []);
  const cases = keys.flatMap((key) => key.cases);
  const nothing = [['No answer key was found.']];
  return asText(
    blocks([
      ...(keys.length === 0 ? nothing : [counts(keys, width)]),
      ...keys.flatMap((key) => keyBlocks(key, words, width)),
      ...(keys.length === 0 ? [] : [wrap(total(cases), width), wrap(WORTH, width)]),
      cautionLines(cautions, width),
    ]),
  );
}

const HEADINGS = ['cases', 'agreed', 'disagreed', 'not decidable'];

/** A table of plain figures, one key a line. */
function counts(keys: readonly KeyScoreShown[], width: number): string[] {
  const name = Math.max(...keys.map(({ id }) => id.length));
  const line = (first: string, cells: readonly string[], label: string): string =>
    clean(
      `${first.padEnd(name)}  ${cells.map((cell, at) => cell.padStart(HEADINGS[at]!.length)).join('  ')}  ${label}`,
    )
      .trimEnd()
      .slice(0, Math.max(width, name + 50 + label.length));
  return [
    line('', HEADINGS, ''),
    ...keys.map(({ id, cases }) => line(id, figures(cases).map(String), labelOf(cases))),
  ];
}

const figures = (cases: readonly CaseScoreShown[]): number[] => [
  cases.length,
  ...(['agreed', 'disagreed', 'not-decidable'] as const).map(
    (verdict) => cases.filter((one) => one.verdict === verdict).length,
  ),
];

function labelOf(cases: readonly CaseScoreShown[]): string {
  const fed = cases.filter((one) => one.fed).length;
  if (fed === 0) return 'independent';
  return fed === cases.length ? 'transcription' : `transcription in ${fed}`;
}

const TITLES = { disagreed: 'Disagrees', 'not-decidable': 'Cannot be decided' } as const;

function keyBlocks({ title, path, cases }: KeyScoreShown, words: Words, width: number): string[][] {
  const odd = (verdict: keyof typeof TITLES) =>
    cases
      .filter((one) => one.verdict === verdict)
      .map((one) => [
        placeWords({ path, range: one.range }),
        ...wrap(`${TITLES[verdict]}: ${one.says}`, width, '  '),
        ...caseLines(one, words, width),
      ]);
  const idle = cases.filter((one) => one.verdict !== 'disagreed' && one.differs !== undefined);
  const found = [...odd('disagreed'), ...odd('not-decidable')];
  const surplus =
    idle.length === 0
      ? []
      : [
          wrap(
            `No longer needed: the recorded reason of ${listed(
              idle.map(({ id }) => id),
              'and',
            )}.`,
            width,
            '  ',
          ),
        ];
  return found.length + surplus.length === 0 ? [] : [wrap(title, width), ...found, ...surplus];
}

function caseLines(one: CaseScoreShown, words: Words, width: number): string[] {
  const off = one.judged.filter(({ verdict }) => verdict === one.verdict);
  const reason = one.differs ?? 'No reason is recorded.';
  return [
    ...labelled('Source', [`${one.locator} · ${statusWords(one.status)}`], width),
    ...labelled(
      'Here',
      off.map((judged) => judgedWords(judged, words)),
      width,
    ),
    ...(one.conflicts.length > 0
      ? labelled(
          'Sources',
          one.conflicts.map((conflict) => conflictWords(conflict, words)),
          width,
        )
      : []),
    ...(one.verdict === 'disagreed' ? labelled('Reason', [reason], width) : []),
  ];
}

function total(cases: readonly CaseScoreShown[]): string {
  const by = (verdict: CaseScoreShown['verdict']) => cases.filter((one) => one.verdict === verdict);
  const [agreed, disagreed, open] = [by('agreed'), by('disagreed'), by('not-decidable')];
  const copied = agreed.filter(({ fed }) => fed).length;
  const bare = disagreed.filter(({ differs }) => differs === undefined).length;
  const conflict = disagreed.filter(({ conflicts }) => conflicts.length > 0).length;
  const reasons = bare === 0 ? 'each with a recorded reason' : `${bare} without a recorded reason`;
  const sources = conflict === 0 ? '' : `, ${conflict} where the sources themselves disagree`;
  return [
    `${counted(cases.length, 'published answer')}: ${agreed.length} agreed (${agreed.length - copied} independent, ${copied} by transcription)`,
    disagreed.length === 0 ? 'none disagreed' : `${disagreed.length} disagreed (${reasons}${sources})`,
    `${open.length} cannot be decided`,
  ].join('; ');
}
