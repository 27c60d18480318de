export { adviceParts, HEADINGS, LOCKED, MEMORY_ONLY, noAdviceWords } from './assessment/advice.ts';
export {
  choiceWords as optionsLeftWords,
  inOrder as optionsInOrder,
  isEmpty as noOptions,
  nothingLeftWords,
  optionWords,
  rankWords,
} from './assessment/choice.ts';
export type { Content, Part } from './assessment/context.ts';
export { adoptedWords, asOfWords, digestWords } from './assessment/header.ts';
export { inShortWords } from './assessment/inShort.ts';
export { changeWords } from './assessment/local.ts';
export { problemGroups } from './assessment/problems.ts';
export { endedWords, outcomeWords, shownReasons } from './assessment/proof.ts';
export { ASK_HEADING, questionWords } from './assessment/questions.ts';
export { aboutParts, complianceWords, conclusionWords, populationWords } from './assessment/sets.ts';
export { type AssessmentTextOptions, assessmentText } from './assessment/text.ts';
export { cautions } from './cautions.ts';
export { cautiousWords, rangeWords } from './choices/allowed.ts';
export { type RebasedShown, type RebaseTextOptions, rebaseText } from './compare/rebase.ts';
export type { ComparisonShown, ComparisonTextOptions } from './compare/shown.ts';
export { comparisonText } from './compare/text.ts';
export { operatorWords } from './conditions/operators.ts';
export {
  PARTS as REASON_PARTS,
  type ReasonOptions,
  reasonLines,
  reasonWords,
  ruleReasonLines,
  TRUTH as TRUTH_WORDS,
} from './conditions/reason.ts';
export { clauseWords, conditionSentence, sentenceWith } from './conditions/sentence.ts';
export { type AssessmentHtmlOptions, assessmentHtml } from './html/assessment/assessmentHtml.ts';
export type { HandbookShown } from './html/handbook/gathered.ts';
export { handbookHtml } from './html/handbook/handbookHtml.ts';
export { wrap } from './layout.ts';
export {
  type AnalysisTextOptions,
  analysisText,
  type FindingShown,
  type SetAnalysisShown,
} from './listings/analysis.ts';
export { type BurdenShown, type BurdenTextOptions, burdenText } from './listings/burden.ts';
export { checkText } from './listings/check.ts';
export { type CoverageTextOptions, coverageText, type SetCoverageShown } from './listings/coverage.ts';
export { type CrossCheckShown, crossCheckText } from './listings/crossCheck.ts';
export { type DiagnosticShown, diagnosticText, placeWords } from './listings/diagnostic.ts';
export { type FactsShown, factsText } from './listings/facts.ts';
export { ANALYSIS_SAYS, findingsWords, findingWords, proofWords } from './listings/findingWords.ts';
export {
  type ForecastLine,
  type ForecastTextOptions,
  forecastLines,
  forecastText,
} from './listings/forecast.ts';
export {
  type MutationTextOptions,
  mutationText,
  noticesEnough,
  type SetMutationShown,
} from './listings/mutation.ts';
export { type GateShown, logLine, releaseReport } from './listings/release.ts';
export { refusalWords, verifiedText, withdrawnText } from './listings/releaseFile.ts';
export {
  type CaseScoreShown,
  type KeyScoreShown,
  type ScoreboardTextOptions,
  scoreboardText,
} from './listings/scoreboard.ts';
export { changedInWords, changedWords, READS_DIFFERENTLY, tallyWords } from './listings/tally.ts';
export { type VignetteShown, vignettesText } from './listings/vignettes.ts';
export {
  affectedWords,
  moveWords,
  perDayWords,
  shareWords,
  thousands,
  WARD_CAUTION,
  WARD_COUNTED,
  wardChangedWords,
  wardSizeWords,
} from './listings/ward.ts';
export { reportHtml } from './report/html.ts';
export { reportJunit } from './report/junit.ts';
export { reportMarkdown } from './report/markdown.ts';
export { vignetteFailed } from './report/results.ts';
export type { ReportedGate, ReportedSet, ReportShown } from './report/shown.ts';
export { sourceWords, statusWords } from './status.ts';
export { causeWords } from './values/cause.ts';
export { durationWords } from './values/duration.ts';
export { momentWords } from './values/moment.ts';
export { placesFilled } from './values/places.ts';
export { foundWords, readingWords } from './values/reading.ts';
export { amountWords, unitWords } from './values/units.ts';
export { valueWords } from './values/value.ts';
export { counted, listed, lowerFirst, upperFirst, type Words, wordsOf } from './words.ts';
