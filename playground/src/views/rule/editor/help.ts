import { operatorsFor } from '@dwellset/authoring';
import { operatorWords, upperFirst, valueWords } from '@dwellset/wording';
import { getLocation } from 'jsonc-parser';
import type * as Monaco from 'monaco-editor/editor';
import { evidenceOf, words } from '../../../words.ts';
import { fixesOf } from './fixes.ts';

interface Offer {
  readonly id: string;
  readonly says: string;
}

/** What may stand at a place of a rule, by the key it stands under. */
function offersAt(text: string, offset: number): Offer[] {
  const { path, previousNode } = getLocation(text, offset);
  const key = [...path].reverse().find((part) => typeof part === 'string');
  if (previousNode && previousNode.type === 'property') return [];
  const sibling = siblingFact(text, path);
  const fact = sibling === undefined ? undefined : words.value.facts.get(sibling);
  switch (key) {
    case 'fact':
    case 'lowest':
      return [...words.value.facts.values()].map(({ id, title }) => ({ id, says: upperFirst(title) }));
    case 'operator':
      return (operatorsFor(fact?.type, 'fact') ?? []).map((id) => ({
        id,
        says: operatorWords(id as Parameters<typeof operatorWords>[0], fact?.type),
      }));
    case 'parameter':
      return [...words.value.parameters.values()].map(({ id, title }) => ({ id, says: upperFirst(title) }));
    case 'value':
      return Object.entries(words.value.codes[fact?.codes ?? ''] ?? {}).map(([id, says]) => ({ id, says }));
    default:
      return [];
  }
}

/** The fact that a leaf reads, for its operator and value. */
function siblingFact(text: string, path: readonly (string | number)[]): string | undefined {
  const leaf = path.slice(
    0,
    path.findLastIndex((part) => part === 'operator' || part === 'value'),
  );
  try {
    let at: unknown = JSON.parse(text);
    for (const part of leaf) at = (at as Record<string | number, unknown>)[part];
    const { fact } = at as { fact?: unknown };
    return typeof fact === 'string' ? fact : undefined;
  } catch {
    // A text that is being typed: the nearest fact above will do.
    return undefined;
  }
}

/** What a name in a rule stands for. */
function about(name: string): string | undefined {
  const fact = words.value.facts.get(name);
  if (fact)
    return [fact.title, fact.question, fact.unit === undefined ? '' : `Unit ${fact.unit}`]
      .filter(Boolean)
      .join('\n\n');
  const parameter = words.value.parameters.get(name);
  if (parameter)
    return `Local choice: ${parameter.title}\n\nNow ${valueWords(parameter.value, parameter, words.value)}`;
  const evidence = evidenceOf(name);
  return evidence?.statement;
}

/** Completion of names, hover over names, and the quick fixes of our own check. */
export function registerHelp(monaco: typeof Monaco): void {
  monaco.languages.registerCompletionItemProvider('json', {
    triggerCharacters: ['"'],
    provideCompletionItems: (model, position) => {
      const text = model.getValue();
      const offset = model.getOffsetAt(position);
      const { previousNode } = getLocation(text, offset);
      const inside =
        previousNode && offset >= previousNode.offset && offset <= previousNode.offset + previousNode.length;
      const [from, to] = inside
        ? [previousNode.offset, previousNode.offset + previousNode.length]
        : [offset, offset];
      const [start, end] = [model.getPositionAt(from), model.getPositionAt(to)];
      const range = new monaco.Range(start.lineNumber, start.column, end.lineNumber, end.column);
      const suggestions = offersAt(text, offset).map(({ id, says }) => ({
        label: { label: id, description: says },
        kind: monaco.languages.CompletionItemKind.Value,
        insertText: JSON.stringify(id),
        filterText: `"${id} ${says}"`,
        range,
      }));
      return { suggestions };
    },
  });
  monaco.languages.registerHoverProvider('json', {
    provideHover: (model, position) => {
      const { previousNode } = getLocation(model.getValue(), model.getOffsetAt(position));
      if (previousNode?.type !== 'string') return null;
      const said = about(String(previousNode.value));
      return said === undefined ? null : { contents: [{ value: said }] };
    },
  });
  monaco.languages.registerCodeActionProvider('json', {
    provideCodeActions: (model, range) => ({
      actions: fixesOf(model.uri.toString())
        .filter(({ at }) => monaco.Range.areIntersectingOrTouching(at, range))
        .map(({ name, at, text }) => ({
          title: `Put "${name}" instead`,
          kind: 'quickfix',
          isPreferred: true,
          edit: { edits: [{ resource: model.uri, versionId: undefined, textEdit: { range: at, text } }] },
        })),
      dispose: () => undefined,
    }),
  });
}
