import type { Library } from '@dwellset/authoring';

/** Group of facts → the heading that its document gives it. */
export const groupTitles = ({ documents }: Library): ReadonlyMap<string, string> =>
  new Map(
    documents.flatMap(({ kind, source }) => {
      const { group, title } = source.value as { group?: string; title?: string };
      return kind === 'facts' && group !== undefined && title !== undefined ? [[group, title] as const] : [];
    }),
  );
