/** Paper, one ink in two strengths, faint rules, one accent; contrast at least 4.5 to 1 for everything that is read. */
export const COLOURS = `
:root {
  color-scheme: light dark;
  --paper: #f8f4ea;
  --ink: #1f2229;
  --soft: #555762;
  --rule: #cdc5b1;
  --accent: #5b2c83;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #191714;
    --ink: #ece6d9;
    --soft: #b5ada0;
    --rule: #474138;
    --accent: #cbadf3;
  }
}
`;
