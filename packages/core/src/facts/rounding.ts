/** Decimal places of a step such as 0.25. */
export function placesOf(step: number): number {
  const text = String(step);
  if (text.includes('e-')) return Number(text.split('e-')[1]);
  return text.includes('.') ? text.length - text.indexOf('.') - 1 : 0;
}

/** Rounds to the nearest multiple of `step`, halves up; the result has no binary noise. Infinities stay. */
export function roundToStep(value: number, step: number | undefined): number {
  if (step === undefined || !Number.isFinite(value)) return value;
  return Number((Math.round(value / step) * step).toFixed(placesOf(step)));
}
