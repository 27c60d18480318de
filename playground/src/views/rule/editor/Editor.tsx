import { useEffect, useRef } from 'preact/hooks';
import { meant } from '../../../parts/Problems.tsx';
import type { RuleAtHand } from '../useRule.ts';
import { setFixes } from './fixes.ts';
import { dress, monaco } from './monaco.ts';

/** The text of a rule in an editor that completes names, explains them and walks over mistakes. */
export function Editor({ at, readOnly }: { at: RuleAtHand; readOnly: boolean }) {
  const place = useRef<HTMLDivElement>(null);
  const editor = useRef<ReturnType<typeof monaco.editor.create> | null>(null);
  const latest = useRef(at);
  latest.current = at;
  useEffect(() => {
    dress();
    const uri = monaco.Uri.parse(`inmemory://rules/${at.key}.rule.json`);
    const model = monaco.editor.getModel(uri) ?? monaco.editor.createModel(at.text, 'json', uri);
    const made = monaco.editor.create(place.current!, {
      model,
      readOnly,
      ariaLabel: 'Text of the rule as JSON',
      ariaContainerElement: place.current!,
      automaticLayout: true,
      minimap: { enabled: false },
      bracketPairColorization: { enabled: false },
      scrollBeyondLastLine: false,
      tabSize: 2,
      fontSize: 13,
      wordWrap: 'on',
      fixedOverflowWidgets: true,
    });
    const typed = model.onDidChangeContent(() => {
      const text = model.getValue();
      if (text !== latest.current.text) latest.current.setText(text);
    });
    editor.current = made;
    made.focus();
    return () => {
      typed.dispose();
      made.dispose();
      model.dispose();
      editor.current = null;
    };
  }, [at.key, readOnly]);
  useEffect(() => {
    const model = editor.current?.getModel();
    // Changes of the outline and of undo reach the editor as one edit, so that its own undo still works.
    if (model && model.getValue() !== at.text) {
      model.pushEditOperations([], [{ range: model.getFullModelRange(), text: at.text }], () => null);
    }
  }, [at.text]);
  useEffect(() => {
    const model = editor.current?.getModel();
    if (!model) return;
    const placed = at.found.map((one) => ({
      one,
      range: {
        startLineNumber: one.range.line,
        startColumn: one.range.column,
        endLineNumber: one.range.endLine,
        endColumn: one.range.endColumn,
      },
    }));
    const markers = placed.map(({ one, range }) => ({
      ...range,
      message: one.hint === undefined ? one.message : `${one.message}; ${one.hint}`,
      code: one.code,
      severity: one.severity === 'error' ? monaco.MarkerSeverity.Error : monaco.MarkerSeverity.Info,
    }));
    monaco.editor.setModelMarkers(model, 'dwellset', markers);
    const fixes = placed.flatMap(({ one, range }) => {
      const name = meant(one);
      if (name === undefined) return [];
      const quoted = model.getValueInRange(range).startsWith('"');
      return [{ name, at: range, text: quoted ? JSON.stringify(name) : name }];
    });
    setFixes(model.uri.toString(), fixes);
  }, [at.found]);
  return <div class="monaco" ref={place} />;
}
