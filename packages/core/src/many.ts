export {
  type ComplianceOverCases,
  type ConclusionOverCases,
  complyCases,
  concludeCases,
  type OptionsOverCases,
  optionsOverCases,
} from './many/setsOverCases.ts';
export { type Block, openColumns, type SharedColumns, shareColumns } from './many/sharedColumns.ts';
export {
  cancelJob,
  type JobProgress,
  outcomesIn,
  progressOf,
  type SharedJob,
  sharedJob,
  workOn,
} from './many/threads.ts';
