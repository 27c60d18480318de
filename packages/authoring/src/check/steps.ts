/** Whether a number is a multiple of a step, binary noise aside; every number is one of no step. */
export function isMultiple(value: number, step: number | undefined): boolean {
  if (step === undefined) return true;
  const times = value / step;
  return Math.abs(times - Math.round(times)) < 1e-9 * Math.max(1, Math.abs(times));
}

/** 0.01, 0.5, 1, 50, …: a power of ten times a whole number, so that rounding has no binary noise. */
export function isCleanStep(step: number): boolean {
  return step > 0 && Number.isFinite(step) && Number(step.toPrecision(6)) === step;
}
