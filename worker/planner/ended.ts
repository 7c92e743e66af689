/** What a search in steps comes to, with none of its steps looked at. */
export function ended<T>(steps: Generator<unknown, T>): T {
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}
