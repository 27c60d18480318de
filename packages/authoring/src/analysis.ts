export { isSettled } from './analysis/accept.ts';
export { ANALYSIS_STEPS, analyseSet, analysing } from './analysis/analyse.ts';
export {
  FINDING_KINDS,
  type Finding,
  type FindingKind,
  type SetAnalysis,
  type Shown,
  type StaleAcceptance,
} from './analysis/shape.ts';
