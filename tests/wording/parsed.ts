import { type DefaultTreeAdapterTypes, defaultTreeAdapter, type ParserError, parse } from 'parse5';

type Element = DefaultTreeAdapterTypes.Element;
type Node = DefaultTreeAdapterTypes.ChildNode;

/** A page as a browser's parser sees it. */
export interface Parsed {
  /** Mistakes that a browser would silently put right. */
  readonly errors: readonly string[];
  /** In document order. */
  readonly elements: readonly Element[];
  readonly ids: ReadonlyMap<string, Element>;
  /** What a reader sees, without the style sheet, white space as a browser sets it. */
  readonly text: string;
}

export const attribute = (element: Element, name: string): string | undefined =>
  element.attrs.find((one) => one.name === name)?.value;

export const hasClass = (element: Element, name: string): boolean =>
  (attribute(element, 'class') ?? '').split(' ').includes(name);

const childrenOf = (node: Node): readonly Node[] => ('childNodes' in node ? node.childNodes : []);

const below = (node: Node): Element[] => [
  ...(defaultTreeAdapter.isElementNode(node) ? [node] : []),
  ...childrenOf(node).flatMap(below),
];

export const elementsIn = (node: Element): Element[] => below(node).slice(1);

function rawText(node: Node): string {
  if (defaultTreeAdapter.isTextNode(node)) return node.value;
  return 'tagName' in node && node.tagName === 'style' ? '' : childrenOf(node).map(rawText).join(' ');
}

/** Elements put nothing between their texts here, and a dot or comma stays with its word. */
export const textOf = (node: Node): string => rawText(node).replace(/\s+/g, ' ').trim();

export function parsed(page: string): Parsed {
  const errors: string[] = [];
  const document = parse(page, {
    onParseError: ({ code, startLine, startCol }: ParserError) =>
      errors.push(`${startLine}:${startCol} ${code}`),
  });
  const elements = document.childNodes.flatMap(below);
  const ids = new Map(
    elements.flatMap((element) => {
      const id = attribute(element, 'id');
      return id === undefined ? [] : [[id, element] as const];
    }),
  );
  return { errors, elements, ids, text: document.childNodes.map(textOf).join(' ').trim() };
}

export const byId = ({ ids }: Parsed, id: string): Element | undefined => ids.get(id);

/** Targets of all links. */
export const linksIn = (elements: readonly Element[]): string[] =>
  elements.flatMap((element) => attribute(element, 'href') ?? []);
