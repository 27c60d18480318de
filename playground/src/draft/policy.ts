/** The hospital's own policy, which its choices cite. */
export const POLICY = 'our-policy';

/** The statement that stands behind one choice. */
export const evidenceFor = (path: string): string => `our-${path.replaceAll(/[./]/g, '-')}`;
