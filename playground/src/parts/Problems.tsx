import type { Diagnostic } from '@dwellset/authoring';
import { upperFirst } from '@dwellset/wording';

const plain = (text: string): string => upperFirst(text.replaceAll('`', '"'));

interface Props {
  readonly found: readonly Diagnostic[];
  /** Where in the text it stands is worth saying. */
  readonly places?: boolean;
  readonly onGo?: (diagnostic: Diagnostic) => void;
  readonly onFix?: (diagnostic: Diagnostic, to: string) => void;
}

/** The one name that a diagnostic proposes instead of what stands there. */
export const meant = ({ hint }: Diagnostic): string | undefined =>
  /^did you mean `([^`]+)`/.exec(hint ?? '')?.[1];

/** What is wrong, each with its place and, where there is one, the way to mend it. */
export function Problems({ found, places = false, onGo, onFix }: Props) {
  if (found.length === 0) return null;
  return (
    <ul class="problems plain">
      {found.map((diagnostic, index) => {
        const { range, message, expected, hint, severity } = diagnostic;
        const fix = onFix && meant(diagnostic);
        return (
          <li key={`${diagnostic.code}-${diagnostic.pointer}-${index}`}>
            <span class="id">{severity === 'error' ? 'mistake' : 'remark'}</span> {plain(message)}.
            {expected !== undefined && <span class="aside"> Expected: {plain(expected)}.</span>}
            {hint !== undefined && !fix && <span class="aside"> {plain(hint)}.</span>}{' '}
            {places &&
              (onGo ? (
                <button type="button" onClick={() => onGo(diagnostic)}>
                  line {range.line}, column {range.column}
                </button>
              ) : (
                <span class="id">
                  line {range.line}, column {range.column}
                </span>
              ))}{' '}
            {fix !== undefined && (
              <button type="button" onClick={() => onFix!(diagnostic, fix)}>
                Put "{fix}" instead
              </button>
            )}
          </li>
        );
      })}
    </ul>
  );
}
