import type { Assessment, Release } from '@dwellset/core';
import { cautionLines } from '../cautions.ts';
import { asText, blocks, usableWidth, wrap } from '../layout.ts';
import { wordsOf } from '../words.ts';
import { adviceSections } from './advice.ts';
import { choicesSection } from './choicesBehind.ts';
import type { Content, Context } from './context.ts';
import { headerLines } from './header.ts';
import { problemSection } from './problems.ts';
import { proofSection } from './proof.ts';
import { questionSection } from './questions.ts';
import { aboutSection, setSections } from './sets.ts';

export interface AssessmentTextOptions {
  /** Columns; 80 unless stated. */
  readonly width?: number;
  /** `deciding`: what was found behind each advice. `all`: also every rule's statement, and what each set is for. */
  readonly reasons?: 'deciding' | 'all' | 'none';
  /** The releases that spoke: they hold the titles and words of facts, codes and local choices. */
  readonly releases?: readonly Release[];
}

/** How much was decided; where nothing spoke, the advice's own place has said so. */
export function countWords({ assessment: { advice, counts, engine } }: Content): string {
  const by = `${engine.name} ${engine.version}`;
  if (advice.length === 0) return by;
  const applies = counts.applies === 1 ? '1 rule applies' : `${counts.applies} rules apply`;
  return `${applies}, ${counts.undetermined} could not be decided, ${counts.notInScope} not in scope · ${by}`;
}

/**
 * One assessment as text, to be read from the top: what to do, why, what to ask, on what grounds. The id of the
 * case is never printed.
 */
export function assessmentText(assessment: Assessment, options: AssessmentTextOptions = {}): string {
  const width = usableWidth(options.width);
  const releases = options.releases ?? [];
  const context: Context = {
    assessment,
    words: wordsOf(releases),
    releases,
    zone: assessment.case.timeZone,
    width,
    findings: options.reasons !== 'none',
  };
  const all = options.reasons === 'all';
  return asText(
    blocks([
      headerLines(context),
      ...adviceSections(context),
      ...setSections(context),
      questionSection(context),
      problemSection(context),
      context.findings ? choicesSection(context) : [],
      ...(all ? [proofSection(context), aboutSection(context)] : []),
      wrap(countWords(context), width),
      cautionLines(assessment.caution, width),
    ]),
  );
}
