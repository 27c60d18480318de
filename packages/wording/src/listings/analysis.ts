import type { Case, Release } from '@dwellset/core';
import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, clean, usableWidth, wrap } from '../layout.ts';
import { counted, listed, type Words, wordsOf } from '../words.ts';
import { placeWords } from './diagnostic.ts';
import { type SaidShown, saidWords } from './difference.ts';
import {
  ANALYSIS_SAYS,
  type Checks,
  type FindingShown as Found,
  findingWords,
  proofWords,
} from './findingWords.ts';
import { patientWords } from './patient.ts';

interface PlaceShown {
  readonly path: string;
  readonly range: { readonly line: number; readonly column: number };
}

interface PatientShown {
  readonly case: Case;
  readonly says: readonly SaidShown[];
}

export interface FindingShown extends Found {
  readonly locked: boolean;
  readonly place: PlaceShown;
  readonly witness?: PatientShown;
  readonly beside?: readonly [below: PatientShown, above: PatientShown];
  readonly proof?: { readonly facts: readonly string[] };
  readonly digest: string;
  readonly accepted?: { readonly reason: string; readonly place: PlaceShown };
}

/** What the analysis found in one set, and what is accepted of it. */
export interface SetAnalysisShown {
  readonly set: string;
  readonly rules: number;
  readonly refused?: readonly string[];
  readonly findings: readonly FindingShown[];
  readonly stale: readonly {
    readonly kind: string;
    readonly of: readonly string[];
    readonly place: PlaceShown;
    readonly why: 'not-found' | 'changed';
    readonly digest?: string;
  }[];
}

export interface AnalysisTextOptions {
  readonly width?: number;
  readonly releases: readonly Release[];
  readonly shown?: (path: string) => string;
}

/** A patient in words, and what is said of him. */
function patientLines({ case: patient, says }: PatientShown, set: string, words: Words): string[] {
  return [`This patient shows it: ${patientWords(patient, words)}.`, ...saidWords(set, says, words)];
}

/** What two rules say that are read as opposites, for a person to judge. */
function quotes({ kind, of }: FindingShown, release: Release | undefined): string[] {
  if (kind !== 'contradictory-advice') return [];
  return of.flatMap((id) => {
    const { title, advice } = release?.rules.find((rule) => rule.id === id) ?? {};
    return advice === undefined ? [] : [`"${title}" says: ${advice.summary.replace(/\{\{[^}]*\}\}/g, '…')}`];
  });
}

function besideLine({ says }: PatientShown, where: string, set: string, words: Words): string[] {
  return saidWords(set, says, words).map((said) => `Just ${where}: ${said}`);
}

/** Where the words for the findings of one set are looked up. */
interface Shelf {
  readonly release: Release | undefined;
  readonly words: Words;
  readonly checks: Checks;
  readonly shown: (path: string) => string;
}

function findingLines(
  finding: FindingShown,
  { release, words, checks, shown }: Shelf,
  width: number,
): string[] {
  const { set, place, locked, witness, beside, proof, digest, accepted, certainty, kind, of } = finding;
  const sentence = findingWords(finding, words, checks);
  const line = (text: string) => wrap(text, width, '  ', '     ');
  const heading = placeWords({ path: shown(place.path), range: place.range });
  const marks = `${locked ? 'locked · ' : ''}${certainty === 'possible' ? 'possible · ' : ''}`;
  if (accepted) return [heading, ...line(`${marks}${sentence}`), ...line(`Accepted: ${accepted.reason}`)];
  return [
    heading,
    ...line(`${marks}${sentence}`),
    ...[...quotes(finding, release), ...(witness ? patientLines(witness, set, words) : [])].flatMap(line),
    ...(beside
      ? [...besideLine(beside[0], 'below', set, words), ...besideLine(beside[1], 'above', set, words)]
      : []
    ).flatMap(line),
    ...(proof && !witness ? line(proofWords(proof.facts, certainty)) : []),
    ...line(`Named in an acceptance as: ${[kind, ...of].join(' · ')}`),
    `     ${digest}`,
  ];
}

function staleLines(
  { kind, of, place, why, digest }: SetAnalysisShown['stale'][number],
  shown: (path: string) => string,
  width: number,
): string[] {
  const name = [kind, ...of].join(' · ');
  const says =
    why === 'not-found'
      ? `Accepts what is not found any more: ${name}. Leave it out.`
      : `Accepts what rests on something else by now: ${name}. Look at it again; its digest is now`;
  return [
    placeWords({ path: shown(place.path), range: place.range }),
    ...wrap(says, width, '  ', '     '),
    ...(digest === undefined ? [] : [`     ${digest}`]),
  ];
}

function headingWords({ set, rules, findings }: SetAnalysisShown): string {
  const accepted = findings.filter((finding) => finding.accepted !== undefined).length;
  const found = findings.length === 0 ? 'nothing found' : counted(findings.length, 'finding');
  return clean(
    `${set}: ${counted(rules, 'rule')}, ${found}${accepted === 0 ? '' : `, ${accepted} accepted`}`,
  );
}

function setBlocks(set: SetAnalysisShown, options: AnalysisTextOptions, width: number): string[][] {
  const { findings, stale, refused } = set;
  if (refused) {
    return [
      [clean(set.set), ...refused.flatMap((why) => wrap(`Not analysed: ${why}`, width, '  ', '     '))],
    ];
  }
  const shown = options.shown ?? ((path: string) => path);
  const release = options.releases.find(({ id }) => id === set.set);
  const checks = new Set(release?.rules.flatMap(({ id, expect }) => (expect === undefined ? [] : [id])));
  const all = { release, words: wordsOf(options.releases), checks, shown };
  const list = (title: string, of: readonly FindingShown[]): string[][] =>
    of.length === 0 ? [] : [[clean(title)], ...of.map((finding) => findingLines(finding, all, width))];
  return [
    [headingWords(set)],
    ...list(
      `Found in ${set.set}`,
      findings.filter(({ accepted }) => accepted === undefined),
    ),
    ...(stale.length === 0 ? [] : [[`Acceptances that accept nothing in ${set.set}`]]),
    ...stale.map((one) => staleLines(one, shown, width)),
    ...list(
      `Accepted in ${set.set}`,
      findings.filter(({ accepted }) => accepted !== undefined),
    ),
  ];
}

const isOpen = ({ refused, findings, stale }: SetAnalysisShown): boolean =>
  refused !== undefined || stale.length > 0 || findings.some(({ accepted }) => accepted === undefined);

/** What was found in the rules of each set, each with a patient who shows it, then what is accepted and why. */
export function analysisText(sets: readonly SetAnalysisShown[], options: AnalysisTextOptions): string {
  const width = usableWidth(options.width);
  const open = sets.filter(isOpen).map(({ set }) => set);
  const verdict =
    open.length === 0
      ? 'Nothing is left open.'
      : `Left open in ${listed(open, 'and')}: mend the rules, or accept a finding with its reason in accepted/SET.json.`;
  return asText(
    blocks([
      ...sets.flatMap((set) => setBlocks(set, options, width)),
      sets.length === 0 ? ['No rule set was found.'] : wrap(`${verdict} ${ANALYSIS_SAYS}`, width),
      cautionLines(cautions, width),
    ]),
  );
}
