/** Findings as they arise, for a page that shows them one by one; in an entry of their own, since few pages do. */
export { ANALYSIS_STEPS, analysing } from './analysis/analyse.ts';
