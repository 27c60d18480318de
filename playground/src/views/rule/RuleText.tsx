import type { Diagnostic } from '@dwellset/authoring';
import { useRef, useState } from 'preact/hooks';
import { lazily } from '../../parts/lazily.tsx';
import { Problems } from '../../parts/Problems.tsx';
import { mended, stretchOf } from './textPlace.ts';
import type { RuleAtHand } from './useRule.ts';

const Editor = lazily(() => import('./editor/Editor.tsx').then(({ Editor }) => Editor), 'The editor');

/** The rule as its document reads, in a plain field; the mistakes stand below it with their places. */
export function RuleText({ at, readOnly }: { at: RuleAtHand; readOnly: boolean }) {
  const field = useRef<HTMLTextAreaElement>(null);
  const [large, setLarge] = useState(false);
  const { text, found, setText } = at;
  const goTo = (diagnostic: Diagnostic): void => {
    const [from, to] = stretchOf(text, diagnostic.range);
    field.current?.focus();
    field.current?.setSelectionRange(from, Math.max(to, from));
  };
  const mistakes = found.filter(({ severity }) => severity === 'error').length;
  return (
    <section aria-labelledby="json">
      <h2 id="json">Text</h2>
      <p class="aside" id="json-about">
        The same rule as JSON.{' '}
        {readOnly
          ? 'It can be read and copied here.'
          : 'What is changed here changes the outline above, and the other way round.'}
      </p>
      <p class="aside">
        <button type="button" aria-pressed={large} onClick={() => setLarge(!large)}>
          {large ? 'Back to the plain field' : 'Open in the editor'}
        </button>
        {large &&
          ' – F8 walks over the mistakes, Ctrl+Space completes names, Ctrl+. mends; Ctrl+M lets Tab leave the editor.'}
      </p>
      {large ? (
        <Editor at={at} readOnly={readOnly} />
      ) : (
        <textarea
          ref={field}
          class="json"
          spellcheck={false}
          autocapitalize="off"
          autocomplete="off"
          aria-labelledby="json"
          aria-describedby="json-about"
          aria-invalid={mistakes > 0}
          readOnly={readOnly}
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      )}
      <Problems
        found={found}
        places
        {...(!large && { onGo: goTo })}
        {...(!readOnly && { onFix: (one, to) => setText(mended(text, one.range, to), `put ${to}`) })}
      />
    </section>
  );
}
