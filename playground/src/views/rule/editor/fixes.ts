import type { IRange } from 'monaco-editor/editor';

/** A name that mends a mistake, and where it goes. */
export interface Fix {
  readonly name: string;
  readonly at: IRange;
  readonly text: string;
}

const fixes = new Map<string, readonly Fix[]>();

/** The quick fixes of one document, as its last check found them. */
export const fixesOf = (uri: string): readonly Fix[] => fixes.get(uri) ?? [];
export const setFixes = (uri: string, found: readonly Fix[]): void => {
  fixes.set(uri, found);
};
