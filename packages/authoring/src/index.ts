export { type Amended, type AmendedPart, type AmendOptions, amend } from './amend/amend.ts';
export { type LockedLoss, type LockedProof, proveLocked } from './amend/proveLocked.ts';
export { type BuildOptions, type Built, buildRelease, releasesFor } from './build/buildRelease.ts';
export { type CaseRead, type CaseReader, caseReader, checkCase } from './check/caseReader.ts';
export { check } from './check/check.ts';
export { operatorsFor, takesList, takesNothing } from './check/operators.ts';
export { type Closure, closureOf } from './compare/closure.ts';
export { type CompareOptions, compareReleases } from './compare/compare.ts';
export {
  BUMPS,
  type Bump,
  type BumpReason,
  DIRECTIONS,
  type Direction,
  type FieldChange,
  type ItemChange,
  type ItemKind,
  type OutcomeChange,
  type ReleaseNamed,
  type Seed,
  type SetComparison,
  type Side,
  type Witness,
} from './compare/shape.ts';
export { coverage } from './coverage/coverage.ts';
export {
  type ConditionCoverage,
  type ConditionGoal,
  type Coverage,
  type Goal,
  type Home,
  type LimitCoverage,
  type LimitGoal,
  type OptionCoverage,
  type OutcomeGoal,
  type Place,
  type Proof,
  type RuleCoverage,
  type SetCoverage,
  TOTALS,
  type Total,
  type TotalName,
} from './coverage/shape.ts';
export { type Diagnostic, inDocumentOrder, type Range, type Severity } from './diagnostic.ts';
export type { AdoptionDocument } from './documents/adoption.ts';
export type { AmendedSet, AmendmentDocument, Change } from './documents/amendment.ts';
export type { CaseDocument } from './documents/case.ts';
export {
  type DocumentKind,
  type DocumentOf,
  documentKinds,
  documentSchemas,
  kindOf,
  urnOf,
} from './documents/kinds.ts';
export type { Expectation, Vignette } from './documents/vignettes.ts';
export type { WardDocument } from './documents/ward.ts';
export { generateFactTypes } from './factTypes.ts';
export { hazardProof } from './hazards/hazardProof.ts';
export { scoreboard } from './keys/scoreboard.ts';
export type {
  Bearing,
  CaseScore,
  Judged,
  KeyScore,
  SourceConflict,
  Undecided,
  Verdict,
} from './keys/shape.ts';
export type { Library, LibraryDocument, LibraryHospital, LibrarySet, Placed } from './library/shape.ts';
export { adoptionOf, hospitals, readDocument, readLibrary, withDocument } from './library.ts';
export { type MutateOptions, mutate } from './mutation/mutate.ts';
export type {
  Mistake,
  MistakeKind,
  Mutation,
  Noticed,
  SetMutation,
  Survivor,
  Tally,
  TellingCase,
} from './mutation/shape.ts';
export { parseSource, type Source } from './parse/source.ts';
export { type Pinned, pin } from './pin.ts';
export { rebase } from './rebase/rebase.ts';
export {
  type Rebased,
  type RebasedChange,
  type RebasedSet,
  STANDINGS,
  type Standing,
} from './rebase/shape.ts';
export { withLogLine } from './release/changeLog.ts';
export { type Gate, type GateContext, type GateResult, runGates } from './release/gates.ts';
export {
  type ReleaseFile,
  readReleaseFile,
  releasePath,
  releaseText,
  vignettesIn,
} from './release/releaseFile.ts';
export { GATES, LEAST_NOTICED } from './release/standardGates.ts';
export { compareVersions } from './release/versions.ts';
export { type Withdrawing, withdrawalOf, withdrawalPath } from './release/withdraw.ts';
export { jsonSchemaFiles, jsonSchemaOf } from './schemas/jsonSchema.ts';
export { caseOf } from './vignettes/caseOf.ts';
export type { Mismatch } from './vignettes/expectations.ts';
export { type LocalChange, type LocalVignetteResult, runForHospital } from './vignettes/runForHospital.ts';
export { runVignettes, type VignetteOptions, type VignetteResult } from './vignettes/runVignettes.ts';
export { vignetteSeeds } from './vignettes/vignetteSeeds.ts';
export { type Burden, burdenOf, type RuleBurden } from './wards/burden.ts';
export { simulateWard, type WardDay } from './wards/simulate.ts';
export { type WardBurden, WardBurdenCounter } from './wards/wardBurden.ts';
export {
  type RuleChanges,
  type RuleMove,
  type WardChanges,
  WardChangesCounter,
} from './wards/wardChanges.ts';
export { wardSeeds, wardsOf } from './wards/wards.ts';
