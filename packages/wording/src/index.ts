export { type AssessmentTextOptions, assessmentText } from './assessment/text.ts';
export { cautions } from './cautions.ts';
export { type ReasonOptions, reasonLines, ruleReasonLines } from './conditions/reason.ts';
export { conditionSentence } from './conditions/sentence.ts';
export { type AssessmentHtmlOptions, assessmentHtml } from './html/assessment/assessmentHtml.ts';
export type { HandbookShown } from './html/handbook/gathered.ts';
export { handbookHtml } from './html/handbook/handbookHtml.ts';
export { wrap } from './layout.ts';
export { checkText } from './listings/check.ts';
export { type CoverageTextOptions, coverageText, type SetCoverageShown } from './listings/coverage.ts';
export { type CrossCheckShown, crossCheckText } from './listings/crossCheck.ts';
export { type DiagnosticShown, diagnosticText, placeWords } from './listings/diagnostic.ts';
export { type FactsShown, factsText } from './listings/facts.ts';
export { type ForecastTextOptions, forecastText } from './listings/forecast.ts';
export {
  type MutationTextOptions,
  mutationText,
  noticesEnough,
  type SetMutationShown,
} from './listings/mutation.ts';
export {
  type CaseScoreShown,
  type KeyScoreShown,
  type ScoreboardTextOptions,
  scoreboardText,
} from './listings/scoreboard.ts';
export { type VignetteShown, vignettesText } from './listings/vignettes.ts';
export { sourceWords, statusWords } from './status.ts';
export { causeWords } from './values/cause.ts';
export { foundWords, readingWords } from './values/reading.ts';
export { type Words, wordsOf } from './words.ts';
