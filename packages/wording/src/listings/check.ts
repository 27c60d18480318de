import { asText, blocks, usableWidth } from '../layout.ts';
import { counted } from '../words.ts';
import { type DiagnosticShown, diagnosticText } from './diagnostic.ts';

/** Every mistake that a check found, and the count of both kinds. */
export function checkText(
  diagnostics: readonly DiagnosticShown[],
  documents: number,
  width?: number,
): string {
  const columns = usableWidth(width);
  const errors = diagnostics.filter(({ severity }) => severity === 'error').length;
  const warnings = diagnostics.length - errors;
  const found =
    diagnostics.length === 0
      ? 'nothing to correct'
      : `${counted(errors, 'error')}, ${counted(warnings, 'warning')}`;
  return asText(
    blocks([
      ...diagnostics.map((diagnostic) => diagnosticText(diagnostic, columns).split('\n')),
      [`${counted(documents, 'document')} checked: ${found}`],
    ]),
  );
}
