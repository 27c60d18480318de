/** Decimal places of a step such as 0.25; a whole step has none. */
export function placesOf(step: number): number {
  if (Number.isInteger(step)) return 0;
  const text = String(step);
  if (text.includes('e-')) return Number(text.split('e-')[1]);
  return text.includes('.') ? text.length - text.indexOf('.') - 1 : 0;
}

/** Rounds to the nearest multiple of `step`, halves up; the result has no binary noise. Infinities stay. */
export function roundToStep(value: number, step: number | undefined): number {
  if (step === undefined || !Number.isFinite(value)) return value;
  const multiple = Math.round(value / step) * step;
  // A multiple of a whole number has no noise to cut off; `+ 0` gives the plain zero that a text would.
  return Number.isInteger(step) ? multiple + 0 : Number(multiple.toFixed(placesOf(step)));
}
