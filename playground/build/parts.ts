/** Everything that a rule is made of: what the first page needs. */
export const RULES = 'rules';
/** Held against the rules only where somebody asks for a proof. */
const PROOF = 'proof';
const WARD = 'ward';

/** The part of the page's data that a document belongs to; the invented patients of a set are a part of their own. */
export function partOf(path: string): string {
  const [folder = ''] = path.split('/');
  if (path.endsWith('.vignettes.json')) return `patients-${folder}`;
  if (folder === 'published' || path === 'evidence/not-carried.json') return PROOF;
  return folder === 'wards' ? WARD : RULES;
}

/** What an author reads as text stays as it was written; of the others only the meaning is wanted. */
export const shortened = (path: string, text: string): string =>
  /\.rule\.json$|^hospitals\//.test(path) ? text : JSON.stringify(JSON.parse(text));
