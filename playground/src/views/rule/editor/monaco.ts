import * as monaco from 'monaco-editor/editor';
import EditorWorker from 'monaco-editor/editor/editor.worker?worker';
import 'monaco-editor/features/register.all';
import JsonWorker from 'monaco-editor/languages/features/json/json.worker?worker';
import { jsonDefaults } from 'monaco-editor/languages/features/json/register';
import ruleSchema from '../../../../../packages/authoring/schemas/rule.schema.json';
import { registerHelp } from './help.ts';

self.MonacoEnvironment = {
  getWorker: (_id: string, label: string) => (label === 'json' ? new JsonWorker() : new EditorWorker()),
};

// The schema offers keys and values; what is wrong is said by our own check alone, once.
jsonDefaults.setDiagnosticsOptions({
  validate: false,
  schemas: [{ uri: 'urn:dwellset:rule:1', fileMatch: ['*.rule.json'], schema: ruleSchema }],
});

const dark = matchMedia('(prefers-color-scheme: dark)');
const colour = (name: string): string =>
  getComputedStyle(document.documentElement).getPropertyValue(name).trim();

/** Paper, ink and the one accent of the page, whichever of the two it wears. */
export function dress(): void {
  const [ink, soft, accent] = ['--ink', '--soft', '--accent'].map((name) => colour(name).slice(1));
  monaco.editor.defineTheme('ledger', {
    base: dark.matches ? 'vs-dark' : 'vs',
    inherit: false,
    rules: [
      { token: '', foreground: ink! },
      { token: 'string.key.json', foreground: soft! },
      { token: 'string.value.json', foreground: ink! },
      { token: 'number.json', foreground: accent! },
      { token: 'keyword.json', foreground: accent! },
    ],
    colors: {
      'editor.background': colour('--lit'),
      'editor.foreground': colour('--ink'),
      'editorLineNumber.foreground': colour('--soft'),
      'editorCursor.foreground': colour('--accent'),
      'editor.lineHighlightBorder': colour('--rule'),
      'editorError.foreground': colour('--accent'),
      'editorWidget.background': colour('--paper'),
      'editorWidget.foreground': colour('--ink'),
      'editorWidget.border': colour('--rule'),
    },
  });
  monaco.editor.setTheme('ledger');
}
dark.addEventListener('change', dress);
registerHelp(monaco);

export { monaco };
