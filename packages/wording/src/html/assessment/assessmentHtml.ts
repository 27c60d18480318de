import type { Assessment, Release } from '@dwellset/core';
import type { Content } from '../../assessment/context.ts';
import { adoptedWords, asOfWords, byStatus } from '../../assessment/header.ts';
import { problemGroups } from '../../assessment/problems.ts';
import { countWords } from '../../assessment/text.ts';
import { momentWords } from '../../values/moment.ts';
import { listed, wordsOf } from '../../words.ts';
import { html, type Piece } from '../markup.ts';
import { cautionItems, page, section, unbroken } from '../page.ts';
import { askSection } from './ask.ts';
import { choicesSection } from './choices.ts';
import { comesToSection } from './comesTo.ts';
import { doSections } from './do.ts';
import { aboutSection, proofSection } from './proof.ts';
import { whySection } from './why.ts';

export interface AssessmentHtmlOptions {
  /** The releases that spoke: they hold the titles and words of facts, codes and local choices. */
  readonly releases?: readonly Release[];
}

function head(content: Content): Piece {
  const { adoption, ruleSets } = content.assessment;
  const states = byStatus(ruleSets).map(
    ([status, sets]) =>
      html`<p class="aside">Rules ${status}: ${listed(
        sets.map(({ id, version }) => `${id} ${version}`),
        'and',
      )}</p>`,
  );
  return html`<header class="row">
<p class="label">${asOfWords(content)}</p>
<div class="entry"><h1>Assessment</h1>
<div class="first">${cautionItems(content.assessment.caution)}</div>
<p class="aside">${unbroken(countWords(content))}</p>
${states}<p class="aside">${unbroken(adoptedWords(adoption))}</p></div>
</header>
`;
}

const problemSections = (content: Content): Piece =>
  problemGroups(content).map(({ heading, texts }, index) =>
    section(
      `problems-${index + 1}`,
      heading,
      html`<ul class="items plain">${texts.map((text) => html`<li>${text}</li>\n`)}</ul>`,
    ),
  );

/**
 * One assessment as a self-contained page, to be read from the top: what to do, why, what to ask, on what grounds.
 * The id of the case is never printed. The statements of reasons are there if the assessment carries them.
 */
export function assessmentHtml(assessment: Assessment, options: AssessmentHtmlOptions = {}): string {
  const releases = options.releases ?? [];
  const zone = assessment.case.timeZone;
  const content: Content = { assessment, words: wordsOf(releases), releases, zone, findings: true };
  const title = `Assessment as of ${momentWords(assessment.asOf, zone)}`;
  return page({
    title,
    language: releases[0]?.language ?? 'en',
    cautions: assessment.caution,
    footer: title,
    main: [
      head(content),
      doSections(content),
      comesToSection(content),
      whySection(content),
      askSection(content),
      problemSections(content),
      choicesSection(content),
      proofSection(content),
      aboutSection(content),
    ],
  });
}
