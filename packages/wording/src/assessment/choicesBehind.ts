import { type EvidenceShown, evidenceShown } from '@dwellset/core';
import { allowedWords, cautiousWords, inForce, lockedChoices } from '../choices/allowed.ts';
import { choicesOf, type RuleNamed, type RulesByChoice } from '../choices/behind.ts';
import { type PositionSaid, positionsSaid } from '../choices/positions.ts';
import { blocks, labelled, wrap } from '../layout.ts';
import { statusWords } from '../status.ts';
import { listed, upperFirst } from '../words.ts';
import type { Content, Context } from './context.ts';

export interface ChoiceSaid {
  readonly id: string;
  readonly title: string;
  /** The rules that it decided, or that read it. */
  readonly rules: readonly RuleNamed[];
  readonly positions: readonly (Omit<PositionSaid, 'evidence'> & {
    readonly evidence: readonly EvidenceShown[];
  })[];
  readonly allowed: readonly string[];
  readonly cautious: string;
  /** What the hospital changed, and why. */
  readonly changes: readonly string[];
  readonly note?: string;
}

const evidenceOf = (ids: readonly string[], { releases }: Content): EvidenceShown[] =>
  ids.flatMap((id) => {
    const release = releases.find(({ evidence }) => evidence.some((entry) => entry.id === id));
    return release ? evidenceShown(release, [id]) : [];
  });

/** Of each local choice its value, where that comes from, and what else it may be. */
export function choicesSaid(choices: RulesByChoice, content: Content): ChoiceSaid[] {
  const locked = lockedChoices(content.releases);
  return [...choices].flatMap(([id, rules]) => {
    const parameter = content.words.parameters.get(id);
    if (!parameter) return [];
    const changes = content.assessment.ruleSets.flatMap(({ amendment }) => amendment?.changes ?? []);
    return [
      {
        id,
        title: upperFirst(inForce(parameter, content.words)),
        rules,
        positions: positionsSaid(parameter, content.words, locked.get(id)).map((position) => ({
          ...position,
          evidence: evidenceOf(position.evidence, content),
        })),
        allowed: allowedWords(parameter, content.words, locked.get(id)),
        cautious: upperFirst(cautiousWords(parameter.cautious)),
        changes: [...new Set(changes.filter(({ item }) => item === id).map(({ reason }) => reason))],
        ...(parameter.note !== undefined && { note: parameter.note }),
      },
    ];
  });
}

/** Body, year and status of the first source; the statement's id leads to the rest. */
export function briefSource({ id, from, status }: EvidenceShown): string {
  const [first] = from;
  const year = first?.year === undefined ? '' : ` ${first.year}`;
  return `${first?.body ?? ''}${year}, ${statusWords(status)} (${id})`;
}

function positionText({ brief, standing, evidence }: ChoiceSaid['positions'][number]): string {
  const [first, ...others] = evidence;
  const more =
    others.length === 0
      ? ''
      : `; also ${listed(
          others.map(({ id }) => id),
          'and',
        )}`;
  const sources = first === undefined ? '' : ` – ${briefSource(first)}${more}`;
  return `${brief} · ${standing}${sources}`;
}

export const CHOICES_HEADING = 'Local choices';

export function choicesSection(context: Context): string[] {
  const { width } = context;
  const said = choicesSaid(choicesOf(context), context);
  if (said.length === 0) return [];
  return [
    CHOICES_HEADING,
    '',
    ...blocks(
      said.map(({ title, rules, positions, allowed, cautious, changes }) => [
        ...wrap(title, width, '  ', '     '),
        ...labelled('Decides', [rules.map((rule) => `"${rule.title}"`).join('; ')], width),
        ...labelled('Changed', changes, width),
        ...labelled('Sources', positions.map(positionText), width),
        ...labelled('May be', [allowed.join(' ')], width),
        ...labelled('Cautious', [cautious], width),
      ]),
    ),
  ];
}
