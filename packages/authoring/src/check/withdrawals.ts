import { checkSetName } from './adoptions.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { checkDay } from './moments.ts';
import type { Survey } from './survey.ts';

const nameOf = (id: string | undefined, version: string | undefined): string =>
  `${id ?? ''} ${version ?? ''}`;

/** Set and version → the withdrawal. */
const withdrawn = ({ ofKind }: Survey): ReadonlyMap<string, Cursor> =>
  new Map(ofKind('withdrawal').map((root) => [nameOf(root.at('id').text, root.at('version').text), root]));

/** A version of a set that there is, under its own name, replaced by one that stands. */
export function checkWithdrawal(root: Cursor, outer: Context): void {
  const [id, version, replacement] = [root.at('id'), root.at('version'), root.at('replacement')];
  const context = { ...outer, owner: `the withdrawal of \`${nameOf(id.text, version.text)}\`` };
  const { find, owner } = context;
  checkDay(root.at('date'), context);
  checkSetName(id, context);
  const file = root.source.path.replace(/^.*\//, '');
  const name = `${id.text ?? ''}-${version.text ?? ''}.json`;
  if (id.text !== undefined && version.text !== undefined && file !== name) {
    const message = `${owner} stands in a file named \`${file}\``;
    find.report('name-mismatch', version, { message, expected: name, received: file });
  }
  if (replacement.text === undefined || !withdrawn(context.survey).has(nameOf(id.text, replacement.text)))
    return;
  const message = `${owner} names \`${replacement.text}\` to use instead, which is withdrawn too`;
  find.report('withdrawn-release', replacement, { message, received: replacement.text });
}

/** Nobody may go on using what was withdrawn: said at every place where a hospital names it. */
export function checkWithdrawn(set: Cursor, version: Cursor, { find, owner, survey }: Context): void {
  const found = withdrawn(survey).get(nameOf(set.text, version.text));
  if (found === undefined) return;
  const [date, reason, replacement] = ['date', 'reason', 'replacement'].map((key) => found.at(key).text);
  find.report('withdrawn-release', version, {
    message: `${owner} names \`${set.text ?? ''}\` ${version.text ?? ''}, which was withdrawn on ${date ?? '?'}: \`${(reason ?? '?').replace(/\.$/, '')}\``,
    received: version.text,
    hint:
      replacement === undefined
        ? 'no replacement is named: take it out of use'
        : `use ${replacement} instead, once it is adopted`,
  });
}
