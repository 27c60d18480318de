export { type Evaluation, evaluate } from './evaluate/evaluate.ts';
export { type RuleTruths, ruleTruths, type TruthOf } from './evaluate/outcomes.ts';
export type {
  Advice,
  Assessment,
  Cause,
  CheckWord,
  ChoiceResult,
  Compliance,
  ConclusionResult,
  EvidenceShown,
  FactReading,
  OptionResult,
  OptionState,
  Outcome,
  Problem,
  Question,
  Reason,
  RuleReasons,
  RuleResult,
  RuleSetResult,
} from './explain/assessment.ts';
export { CAUTIONS } from './explain/caution.ts';
export { evidenceShown } from './explain/evidenceShown.ts';
export { PLACE } from './explain/expand.ts';
export { assess, type ExplainOptions, explain } from './explain/explain.ts';
export type { ReasonsWanted } from './explain/explained.ts';
export { Explanation, type RulesWanted, type RuleWanted } from './explain/explanation.ts';
export {
  ABSENT_REASONS,
  type AbsentReason,
  type AdviceResponse,
  type Answers,
  type BareValue,
  type Case,
  type CaseValue,
  type Comparator,
  type ListItem,
  type ListValue,
  type StatedValue,
} from './facts/case.ts';
export type { DerivationFault, DerivationKind, Dictionary } from './facts/derivations/kind.ts';
export { DERIVATION_KINDS, kindOf } from './facts/derivations/kinds.ts';
export {
  conclusionColumn,
  derivationSql,
  hoursRead,
  type SqlNames,
  sqlPrefix,
} from './facts/derivations/sql.ts';
export {
  type ExactValue,
  type WitnessInputs,
  type WitnessValue,
  witnessOf,
} from './facts/derivations/witness.ts';
export { type Bounds, exactValue, type Interval, isExact, type Reading } from './facts/reading.ts';
export { TIME_UNITS } from './facts/time.ts';
export {
  and,
  FALSE,
  not,
  or,
  TRUE,
  type Truth,
  type TruthWord,
  truth,
  UNKNOWN,
  word,
} from './facts/truth.ts';
export { convert, unitsJoin } from './facts/units.ts';
export { type Forecast, type ForecastChange, forecast } from './forecast/forecast.ts';
export {
  assessLive,
  type Fetched,
  type LiveAssessment,
  type LiveOptions,
  type Spared,
} from './live/assessLive.ts';
export type { CancelSignal, FactProvider, FetchFailure } from './live/provider.ts';
export { CasesJudged, judgeCases } from './many/judgeCases.ts';
export { count as countCases, isIn as isInCases, type Planes } from './many/planes.ts';
export { type CaseColumns, readCases } from './many/readCases.ts';
export type { RuleOverCases } from './many/ruleBits.ts';
export { type CompileOptions, compile, PlanError } from './plan/compile.ts';
export { leafTruth } from './plan/leaf.ts';
export {
  LEAVE_TO_RUN,
  type Leaf,
  type LeaveToRun,
  type Node,
  type Plan,
  type PlanRule,
  type PlanSet,
} from './plan/plan.ts';
export { type RuleSql, rulesSql } from './plan/sql.ts';
export {
  type Condition,
  type Constant,
  type FactLeaf,
  OPERATORS,
  type Operator,
  type ParameterLeaf,
  type ParameterReference,
} from './release/condition.ts';
export { canonicalJson, digest, digestOf } from './release/digest.ts';
export {
  type Evidence,
  type EvidenceItem,
  type EvidenceStatus,
  type Hazard,
  type Risk,
  type Source,
  STATUSES,
} from './release/evidence.ts';
export type {
  CodeList,
  Coding,
  Derivation,
  Fact,
  FactType,
  FieldCondition,
  ItemField,
  Items,
  ItemsField,
  Operand,
  Window,
} from './release/fact.ts';
export type {
  CautiousSide,
  CellValue,
  Parameter,
  Position,
  Table,
  TableCell,
  TableColumn,
} from './release/parameter.ts';
export type {
  Adoption,
  AmendmentRecord,
  Conclusion,
  Population,
  Release,
  Shape,
  Status,
  StockItem,
  Withdrawal,
} from './release/release.ts';
export {
  INDICATORS,
  type Indicator,
  type OverrideReason,
  type Preference,
  type Rule,
  type RuleAdvice,
  type Suggestion,
} from './release/rule.ts';
