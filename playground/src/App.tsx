import { cautions } from '@dwellset/wording';
import { useEffect, useRef } from 'preact/hooks';
import { failure, opened } from './bench/client.ts';
import { changeCount } from './draft/draft.ts';
import { aside, notice, saved, takeAside } from './draft/keep.ts';
import { draft, redo, redoable, undo, undoable } from './draft/state.ts';
import { newer, takeNewer } from './offline/offline.ts';
import { address, rememberSet, route, setInView } from './route.ts';
import { pageOf } from './views/pages.tsx';

const typing = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  target.closest('textarea, input:not([type=checkbox]), [contenteditable], .monaco') !== null;

function onKey(event: KeyboardEvent): void {
  if (!(event.ctrlKey || event.metaKey) || typing(event.target)) return;
  const key = event.key.toLowerCase();
  if (key === 'z' && !event.shiftKey) undo();
  else if (key === 'y' || (key === 'z' && event.shiftKey)) redo();
  else return;
  event.preventDefault();
}

function Masthead() {
  const set = setInView.value;
  const here = route.value.parts;
  const count = changeCount(draft.value);
  const current = (page: string, on: boolean) =>
    ({ class: page, ...(on && { 'aria-current': 'page' }) }) as { class: string; 'aria-current'?: 'page' };
  return (
    <header class="masthead">
      <p class="name">
        Dwellset <span>test bench</span>
      </p>
      <nav aria-label="Pages">
        <a
          href={address(['set', set])}
          {...current('ledger', here.length === 0 || (here[0] === 'set' && here.length < 3))}
        >
          Ledger
        </a>
        <a href={address(['set', set, 'choices'])} {...current('choices', here[2] === 'choices')}>
          Local choices
        </a>
        <a href={address(['ward'])} {...current('ward', here[0] === 'ward')}>
          Whom it affects
        </a>
        <a href={address(['findings'])} {...current('findings', here[0] === 'findings')}>
          Findings
        </a>
        <a href={address(['patient'])} {...current('patient', here[0] === 'patient')}>
          A patient
        </a>
        <a href={address(['changes'])} {...current('changes', here[0] === 'changes')}>
          Our changes{count === 0 ? '' : ` (${count})`}
        </a>
        <a href={address(['review'])} {...current('review', here[0] === 'review')}>
          For the committee
        </a>
      </nav>
      <p class="steps">
        <button
          type="button"
          onClick={undo}
          aria-disabled={!undoable.value}
          title={undoable.value ? `Undo: ${undoable.value}` : 'Nothing to undo'}
        >
          Undo
        </button>
        <button
          type="button"
          onClick={redo}
          aria-disabled={!redoable.value}
          title={redoable.value ? `Redo: ${redoable.value}` : 'Nothing to redo'}
        >
          Redo
        </button>
        <span class="aside" role="status">
          {saved.value === 'saving'
            ? 'keeping …'
            : saved.value === 'saved'
              ? 'kept in this browser'
              : 'not kept'}
        </span>
      </p>
    </header>
  );
}

const Notice = () =>
  notice.value === undefined && aside.value === undefined ? null : (
    <p class="notice" role="status">
      {notice.value ?? 'A draft that another window overtook is still kept.'}{' '}
      {aside.value && (
        <button type="button" onClick={() => void takeAside()}>
          Take mine back
        </button>
      )}{' '}
      {notice.value !== undefined && (
        <button type="button" onClick={() => (notice.value = undefined)}>
          Understood
        </button>
      )}
    </p>
  );

const Newer = () =>
  newer.value === undefined ? null : (
    <p class="notice" role="status">
      A newer test bench lies ready; your draft stays.{' '}
      <button type="button" onClick={takeNewer}>
        Load it
      </button>
    </p>
  );

function Content() {
  if (failure.value !== undefined) {
    return (
      <article>
        <h1>The bench could not be opened</h1>
        <p role="alert">{failure.value}. Load the page again; nothing of your draft is lost.</p>
      </article>
    );
  }
  if (!opened.value) {
    return (
      <article>
        <h1>Test bench</h1>
        <p role="status">The rules are being read …</p>
      </article>
    );
  }
  return pageOf(route.value);
}

export function App() {
  const main = useRef<HTMLElement>(null);
  const path = route.value.parts.join('/');
  const shown = useRef(path);
  useEffect(() => {
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
  useEffect(() => {
    const [kind, set] = route.value.parts;
    if (kind === 'set' && set !== undefined) rememberSet(set);
    const heading = main.current?.querySelector('h1')?.textContent;
    document.title = heading ? `${heading} · Dwellset test bench` : 'Dwellset test bench';
    if (shown.current === path) return;
    shown.current = path;
    // A page of its own for people who listen: the reading starts at its top.
    scrollTo(0, 0);
    main.current?.focus({ preventScroll: true });
  }, [path, opened.value]);
  return (
    <>
      <button type="button" class="skip" onClick={() => main.current?.focus()}>
        To the page
      </button>
      <Masthead />
      <Notice />
      <Newer />
      <main id="main" tabIndex={-1} ref={main}>
        <Content />
      </main>
      <footer class="cautions">
        {cautions.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </footer>
    </>
  );
}
