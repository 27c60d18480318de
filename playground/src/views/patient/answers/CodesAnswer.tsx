import { words } from '../../../words.ts';
import { Absent, absentWords } from './Absent.tsx';
import { type AnswerProps, absentOf, bareOf, isObject, NOBODY, restated } from './values.ts';

/** A closed list: each may be said yes to, all may be said no to. */
export function CodesAnswer(props: AnswerProps) {
  const { asked, label, value, onValue } = props;
  const codes = words.value.codes[asked.codes ?? ''] ?? {};
  const all = Object.keys(codes);
  const bare = bareOf(value);
  const yes = Array.isArray(bare)
    ? (bare as string[])
    : isObject(bare)
      ? ((bare.yes as string[] | undefined) ?? [])
      : [];
  const no = isObject(bare) ? ((bare.no as string[] | undefined) ?? []) : [];
  const none = no.length === all.length && yes.length === 0;
  const absent = absentOf(value);
  const summary =
    value === undefined
      ? NOBODY
      : absent !== undefined
        ? absentWords(absent)
        : none
          ? 'none of these'
          : yes.map((code) => codes[code] ?? code).join('; ') || 'nothing answered yes';
  const answer = (picked: readonly string[]) => {
    const rest = all.filter((code) => !picked.includes(code));
    // Ticking says yes; what is not ticked is a no only where the author has said so.
    const answers =
      no.length > 0 || none ? { yes: picked, no: rest.filter((code) => no.includes(code)) } : [...picked];
    onValue(picked.length === 0 && no.length === 0 ? undefined : restated(value, answers));
  };
  const onlyTicked = (only: boolean) =>
    onValue(restated(value, only ? { yes, no: all.filter((code) => !yes.includes(code)) } : [...yes]));
  return (
    <details>
      <summary>{summary}</summary>
      <fieldset class="codes">
        <legend class="unseen">{label}</legend>
        {all.map((code) => (
          <label key={code}>
            <input
              type="checkbox"
              checked={yes.includes(code)}
              onInput={(event) =>
                answer(all.filter((one) => (one === code ? event.currentTarget.checked : yes.includes(one))))
              }
            />{' '}
            {codes[code]}
          </label>
        ))}
      </fieldset>
      <p class="adding">
        <label>
          <input
            type="checkbox"
            checked={none}
            onInput={(event) =>
              onValue(event.currentTarget.checked ? restated(value, { yes: [], no: all }) : undefined)
            }
          />{' '}
          none of these
        </label>
        <label>
          <input
            type="checkbox"
            checked={!none && yes.length + no.length === all.length && all.length > 0}
            onInput={(event) => onlyTicked(event.currentTarget.checked)}
          />{' '}
          only the ticked ones
        </label>
        <Absent {...props} />
      </p>
    </details>
  );
}
