/** Where the documents lie, relative to the page. */
declare module 'virtual:policies' {
  const name: string;
  export default name;
}
