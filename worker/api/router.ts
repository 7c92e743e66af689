/** The router, which remembers its answer for addresses without an id in them: most requests come to those, and each search takes as long as reading a small body. */
import type { Result } from 'hono/router';
import { TrieRouter } from 'hono/router/trie-router';

export class RememberingRouter<T> extends TrieRouter<T> {
  readonly #fixed = new Set<string>();
  readonly #found = new Map<string, Result<T>>();

  override add(method: string, path: string, handler: T): void {
    if (!/[:*]/.test(path)) this.#fixed.add(`${method} ${path}`);
    super.add(method, path, handler);
    this.#found.clear();
  }

  override match(method: string, path: string): Result<T> {
    const address = `${method} ${path}`;
    const known = this.#found.get(address);
    if (known) return known;
    const found = super.match(method, path);
    if (this.#fixed.has(address)) this.#found.set(address, found);
    return found;
  }
}
