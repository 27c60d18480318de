/** The author's documents stand in the library as one more hospital. */
export const OURS = 'our-changes';
export const AMENDMENT = `hospitals/${OURS}/amendment.json`;
