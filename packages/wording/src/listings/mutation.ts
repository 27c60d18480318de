import type { Case, Condition, Constant, Release } from '@dwellset/core';
import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, clean, usableWidth, wrap } from '../layout.ts';
import { counted, listed, wordsOf } from '../words.ts';
import { placeWords } from './diagnostic.ts';
import { type DifferenceShown, differenceWords } from './difference.ts';
import { mistakeWords } from './mistake.ts';
import { patientWords } from './patient.ts';

/** A planted mistake. */
interface MistakeShown {
  readonly kind: string;
  readonly home: {
    readonly rule?: string;
    readonly part?: string;
    readonly named?: string;
    readonly parameter?: string;
  };
  readonly place: {
    readonly path: string;
    readonly range: { readonly line: number; readonly column: number };
  };
  readonly locked: boolean;
  readonly before: Condition | Constant;
  readonly after?: Condition | Constant;
}

interface TellingShown {
  readonly case: Case;
  readonly differences: readonly DifferenceShown[];
}

/** A mistake that no vignette notices. */
interface SurvivorShown extends MistakeShown {
  readonly verdict: 'without-effect' | 'unnoticed';
  readonly looked: { readonly boxes: number; readonly facts: readonly string[]; readonly complete: boolean };
  readonly telling?: TellingShown;
}

/** A mistake with the vignette that notices it: what that expects, and what it gets with the mistake. */
interface NoticedShown extends MistakeShown {
  readonly by: { readonly rule: string; readonly vignette: string };
  readonly telling: TellingShown;
}

interface TallyShown {
  readonly planted: number;
  readonly noticed: number;
  readonly withoutEffect: number;
  readonly percent: number;
}

export interface SetMutationShown {
  readonly set: string;
  readonly vignettes: number;
  readonly refused?: readonly string[];
  readonly all: TallyShown;
  readonly locked: TallyShown;
  readonly survivors: readonly SurvivorShown[];
  readonly noticed?: readonly NoticedShown[];
}

export interface MutationTextOptions {
  readonly width?: number;
  readonly releases: readonly Release[];
  readonly shown?: (path: string) => string;
  /** The percentage that the vignettes of every set must notice. */
  readonly least: number;
  /** Whether what is noticed is listed too, each with the patient who shows it. */
  readonly noticed?: boolean;
}

/** Whether the vignettes of a set notice as much as they must: everything that touches a locked rule. */
export const noticesEnough = ({ refused, all, locked }: SetMutationShown, least: number): boolean =>
  refused === undefined && all.percent >= least && locked.percent === 100;

const LABELS = { all: 'in all rules', locked: 'in what locked rules rest on' } as const;
const WIDEST = Math.max(...Object.values(LABELS).map((label) => label.length));

function tallyLine(label: string, { planted, noticed, withoutEffect, percent }: TallyShown): string[] {
  if (planted === 0) return [];
  const count = `${String(noticed).padStart(5)} of ${String(planted - withoutEffect).padStart(4)} noticed`;
  const without = withoutEffect === 0 ? '' : `  ${withoutEffect} without effect`;
  return [`  ${label.padEnd(WIDEST)}${count}${percent.toFixed(1).padStart(7)} %${without}`];
}

const lookedWords = ({ boxes, facts }: SurvivorShown['looked']): string =>
  `${counted(boxes, 'combination')} of ${counted(facts.length, 'fact')}`;

function survivorLines(
  set: string,
  survivor: SurvivorShown,
  { releases, shown }: MutationTextOptions,
  width: number,
): string[] {
  const words = wordsOf(releases);
  const release = releases.find(({ id }) => id === set);
  const { path, range } = survivor.place;
  const { telling, looked, verdict } = survivor;
  const line = (text: string) => wrap(text, width, '  ', '     ');
  const shows =
    telling === undefined
      ? [
          verdict === 'without-effect'
            ? `No outcome changes, whether facts are known or missing: ${lookedWords(looked)}.`
            : `No patient was found who shows it, and it is not proven that there is none: ${lookedWords(looked)}.`,
        ]
      : [
          `Nobody looks at this patient: ${patientWords(telling.case, words)}.`,
          ...differenceWords(set, telling.differences, words, 'with the mistake'),
        ];
  return [
    placeWords({ path: shown?.(path) ?? path, range }),
    ...line(`${survivor.locked ? 'locked · ' : ''}${mistakeWords(survivor, release, words)}`),
    ...shows.flatMap(line),
  ];
}

function noticedLines(
  set: string,
  mistake: NoticedShown,
  { releases, shown }: MutationTextOptions,
  width: number,
): string[] {
  const words = wordsOf(releases);
  const { place, locked, by, telling } = mistake;
  const said = mistakeWords(
    mistake,
    releases.find(({ id }) => id === set),
    words,
  );
  return [
    placeWords({ path: shown?.(place.path) ?? place.path, range: place.range }),
    ...[
      `${locked ? 'locked · ' : ''}${said}`,
      `Noticed by the vignette ${by.rule}/${by.vignette}: ${patientWords(telling.case, words)}.`,
      ...differenceWords(set, telling.differences, words, 'with the mistake'),
    ].flatMap((text) => wrap(text, width, '  ', '     ')),
  ];
}

function setBlocks(set: SetMutationShown, options: MutationTextOptions, width: number): string[][] {
  const { all, locked, refused, survivors, noticed = [] } = set;
  const heading = clean(
    `${set.set}: ${counted(all.planted, 'mistake')} planted one at a time, ${counted(set.vignettes, 'vignette')}`,
  );
  if (refused) {
    return [[heading, ...refused.flatMap((why) => wrap(`Not tried: ${why}`, width, '  ', '     '))]];
  }
  const list = (title: string, verdict: SurvivorShown['verdict']): string[][] => {
    const own = survivors.filter((survivor) => survivor.verdict === verdict);
    return own.length === 0
      ? []
      : [[clean(title)], ...own.map((survivor) => survivorLines(set.set, survivor, options, width))];
  };
  return [
    [heading, ...tallyLine(LABELS.all, all), ...tallyLine(LABELS.locked, locked)],
    ...list(`Not noticed in ${set.set}`, 'unnoticed'),
    ...list(`Without effect in ${set.set}, so that nobody could notice`, 'without-effect'),
    ...(options.noticed && noticed.length > 0
      ? [
          [clean(`Noticed in ${set.set}`)],
          ...noticed.map((mistake) => noticedLines(set.set, mistake, options, width)),
        ]
      : []),
  ];
}

/** How many planted mistakes the vignettes of each set notice, then each of the others with a patient who shows it. */
export function mutationText(
  { sets }: { readonly sets: readonly SetMutationShown[] },
  options: MutationTextOptions,
): string {
  const width = usableWidth(options.width);
  const short = sets.filter((set) => !noticesEnough(set, options.least)).map(({ set }) => set);
  const asked = `Asked for: ${options.least} % of what has an effect, and everything that a locked rule rests on`;
  const verdict =
    short.length === 0 ? `${asked}: reached.` : `${asked}: not reached in ${listed(short, 'and')}.`;
  return asText(
    blocks([
      ...sets.flatMap((set) => setBlocks(set, options, width)),
      sets.length === 0 ? ['No rule set was found.'] : wrap(verdict, width),
      cautionLines(cautions, width),
    ]),
  );
}
