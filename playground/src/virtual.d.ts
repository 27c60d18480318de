/** Where the documents lie, relative to the page, by part: `rules`, `proof`, `ward`, and `patients-<set>` of every set. */
declare module 'virtual:policies' {
  const files: Readonly<Record<string, string>>;
  export default files;
}

/** A worker of its own, made by the bundler. */
declare module '*?worker' {
  const WorkerOf: new () => Worker;
  export default WorkerOf;
}
