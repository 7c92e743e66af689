/** Google's script engine is older than today's browsers: what the shared arithmetic needs of newer years, where it is missing. */

function define(target: object, name: string, value: unknown): void {
  if (!(name in target)) Object.defineProperty(target, name, { value, configurable: true, writable: true });
}

define(String.prototype, 'replaceAll', function replaceAll(this: string, search: string | RegExp, by: string) {
  return typeof search === 'string' ? this.split(search).join(by) : this.replace(search, by);
});

define(Array.prototype, 'at', function at<T>(this: T[], index: number): T | undefined {
  return this[index < 0 ? this.length + index : index];
});

define(Array.prototype, 'findLast', function findLast<T>(this: T[], test: (item: T) => boolean): T | undefined {
  return [...this].reverse().find(test);
});

define(Array.prototype, 'findLastIndex', function findLastIndex<T>(this: T[], test: (item: T) => boolean): number {
  for (let index = this.length - 1; index >= 0; index -= 1) if (test(this[index] as T)) return index;
  return -1;
});
